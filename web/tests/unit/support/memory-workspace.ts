// SPDX-License-Identifier: Apache-2.0
// A workspace in memory that can be told to fail: to be away, to lose its answer after storing, to be full.
import type { JobDocument } from '../../../src/job/document';
import { entryOf } from '../../../src/storage/entry';
import { StorageFailure, type JobEntry, type OpenedCatalogue, type OpenedJob, type Save, type Saved, type Workspace } from '../../../src/storage/workspace';

export type Mood = 'well' | 'away' | 'answer lost' | 'full';

// Of the document alone: that is all that these tests tell apart.
const checksumOf = ({ document }: { document: JobDocument }): string => JSON.stringify(document);

export class MemoryWorkspace implements Workspace {
  readonly place = 'memory';
  readonly id = 'memory';
  mood: Mood = 'well';
  readonly saves: Save[] = [];
  #revisions = new Map<string, OpenedJob>();
  #jobs = new Map<string, { entry: JobEntry; document: JobDocument; saveId: string }>();

  save(save: Save): Promise<Saved> {
    return this.#answer(() => {
      if (this.mood === 'full') throw new StorageFailure('full', 'No room.');
      const job = this.#jobs.get(save.id);
      if (job?.saveId === save.saveId) return { ...job.entry, checksum: checksumOf(job) };
      if ((job?.entry.revision ?? 0) !== save.baseRevision) {
        if (!job) throw new StorageFailure('not_found', 'No such job.');
        throw new StorageFailure('conflict', 'Saved elsewhere.', { ...job.entry, saveId: job.saveId, checksum: checksumOf(job) });
      }
      if (job && save.baseChecksum !== undefined && save.baseChecksum !== checksumOf(job)) {
        throw new StorageFailure('conflict', 'Another of the same number.', { ...job.entry, saveId: job.saveId, checksum: checksumOf(job) });
      }
      const saved = { revision: save.baseRevision + 1, checksum: JSON.stringify(save.document), changed: new Date(save.baseRevision * 1000).toISOString() };
      this.saves.push(save);
      const entry = entryOf(save.document, saved, false, save.summary ?? null);
      this.#jobs.set(save.id, { entry, document: save.document, saveId: save.saveId });
      this.#revisions.set(`${save.id} ${saved.revision}`, { id: save.id, ...saved, document: save.document });
      return saved;
    });
  }

  open(id: string): Promise<OpenedJob> {
    return this.#answer(() => {
      const job = this.#jobs.get(id);
      if (!job) throw new StorageFailure('not_found', 'No such job.');
      return { id, revision: job.entry.revision, changed: job.entry.changed, document: job.document, checksum: checksumOf(job) };
    });
  }

  openRevision(id: string, revision: number): Promise<OpenedJob> {
    return this.#answer(() => {
      const row = this.#revisions.get(`${id} ${revision}`);
      if (!row) throw new StorageFailure('not_found', 'No such revision.');
      return row;
    });
  }

  /** An empty file was put in its place. */
  lose(): void {
    this.#revisions.clear();
    this.#jobs.clear();
  }

  /** A copy of its file, to be put back later. */
  backUp(): () => void {
    const [revisions, jobs] = [new Map(this.#revisions), new Map(this.#jobs)];
    return () => {
      this.#revisions = new Map(revisions);
      this.#jobs = new Map(jobs);
    };
  }

  list(): Promise<readonly JobEntry[]> {
    return this.#answer(() => [...this.#jobs.values()].map(({ entry }) => entry));
  }

  async #answer<T>(work: () => T): Promise<T> {
    await Promise.resolve();
    if (this.mood === 'away') throw new StorageFailure('unreachable', 'Away.');
    const answer = work();
    if (this.mood === 'answer lost') throw new StorageFailure('unreachable', 'Lost.');
    return answer;
  }

  revisions = unused;
  duplicate = unused;
  archive = unused;
  putPicture = unused;
  picture = unused;
  shopCatalogue: () => Promise<OpenedCatalogue> = unused;
  saveShopCatalogue = unused;
}

function unused(): Promise<never> {
  throw new Error('Not part of this test.');
}
