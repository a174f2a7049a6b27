// SPDX-License-Identifier: Apache-2.0
// The workspace in this browser: jobs, revisions, pictures and the shop's catalogue in IndexedDB. Two tabs cannot
// overwrite one another: revisions are compared inside the transaction that writes.
import type { CatalogueFile, JobDocument } from '../job/document';
import { randomId } from '../job/ids';
import type { Database, Transaction } from './database';
import { entryOf } from './entry';
import { sha256Hex } from './sha256';
import { superfluous } from './thinning';
import {
  StorageFailure, type Base, type Current, type JobEntry, type OpenedCatalogue, type OpenedJob, type RevisionEntry, type Save, type Saved, type Workspace,
} from './workspace';

const now = (): string => new Date().toISOString();
const gone = (id: string): StorageFailure => new StorageFailure('not_found', `There is no job "${id}" in this browser.`);

export class BrowserWorkspace implements Workspace {
  readonly place: string;
  readonly id = 'browser';
  #database: Database;

  constructor(database: Database, place = 'this browser') {
    this.place = place;
    this.#database = database;
  }

  async list(): Promise<readonly JobEntry[]> {
    const jobs = await this.#database.run(['jobs'], 'readonly', (t) => t.all('jobs'));
    return jobs.map(({ entry }) => entry).sort((a, b) => b.changed.localeCompare(a.changed));
  }

  async open(id: string): Promise<OpenedJob> {
    const job = await this.#database.run(['jobs'], 'readonly', (t) => t.get('jobs', id));
    if (!job) throw gone(id);
    return { id, revision: job.entry.revision, changed: job.entry.changed, document: job.document };
  }

  async openRevision(id: string, revision: number): Promise<OpenedJob> {
    const row = await this.#database.run(['revisions'], 'readonly', (t) => t.get('revisions', [id, revision]));
    if (!row) throw new StorageFailure('not_found', `Revision ${revision} is not kept any more.`);
    return row;
  }

  async revisions(id: string): Promise<readonly RevisionEntry[]> {
    const rows = await this.#database.run(['revisions'], 'readonly', (t) => t.all('revisions', revisionsOf(id)));
    return rows.map(({ revision, changed, label, bytes }) => ({ revision, changed, label, bytes })).reverse();
  }

  save(save: Save): Promise<Saved> {
    return this.#database.run(['jobs', 'revisions'], 'readwrite', (t) => write(t, save));
  }

  async duplicate(id: string, newId: string, newTitle: string): Promise<Saved> {
    const { document } = await this.open(id);
    const copy: JobDocument = { ...document, id: newId, title: newTitle };
    return this.save({ id: newId, baseRevision: 0, saveId: randomId('save'), document: copy, label: 'Copied' });
  }

  archive(id: string, archived: boolean): Promise<void> {
    return this.#database.run(['jobs'], 'readwrite', async (t) => {
      const job = await t.get('jobs', id);
      if (!job) throw gone(id);
      await t.put('jobs', { ...job, entry: { ...job.entry, archived } });
    });
  }

  async putPicture(blob: Blob): Promise<string> {
    const hash = await sha256Hex(await blob.arrayBuffer());
    await this.#database.run(['images'], 'readwrite', (t) => t.put('images', { hash, blob, pending: null }));
    return hash;
  }

  async picture(hash: string): Promise<Blob> {
    const row = await this.#database.run(['images'], 'readonly', (t) => t.get('images', hash));
    if (!row) throw new StorageFailure('not_found', 'The picture is not kept in this browser.');
    return row.blob;
  }

  async shopCatalogue(): Promise<OpenedCatalogue> {
    const row = await this.#database.run(['catalogues'], 'readonly', (t) => t.get('catalogues', 'shop'));
    return { revision: row?.revision ?? 0, document: row?.document ?? null };
  }

  saveShopCatalogue({ revision: baseRevision }: Base, document: CatalogueFile): Promise<Saved> {
    return this.#database.run(['catalogues'], 'readwrite', async (t) => {
      const row = await t.get('catalogues', 'shop');
      if ((row?.revision ?? 0) !== baseRevision) throw stale('The shop catalogue', row);
      const saved = { revision: baseRevision + 1, changed: now() };
      await t.put('catalogues', { key: 'shop', ...saved, document });
      return saved;
    });
  }
}

const revisionsOf = (id: string): IDBKeyRange => IDBKeyRange.bound([id, 0], [id, Number.MAX_SAFE_INTEGER]);

function stale(what: string, current: Current | undefined): StorageFailure {
  return new StorageFailure('conflict', `${what} was saved in another tab since it was opened here.`, current);
}

async function write(t: Transaction, save: Save): Promise<Saved> {
  const job = await t.get('jobs', save.id);
  if (job && job.saveId === save.saveId) return job.entry;
  if (job && job.entry.revision !== save.baseRevision) throw stale('This job', { ...job.entry, saveId: job.saveId });
  // Nothing here takes a job away: where one is missing, the browser has lost its storage, and this is all that is left.
  const putBack = !job && save.baseRevision > 0;
  const saved: Saved = { revision: save.baseRevision + 1, changed: now(), ...(putBack && { putBack }) };
  const entry = entryOf(save.document, saved, job?.entry.archived ?? false, save.summary ?? null);
  await t.put('jobs', { id: save.id, entry, document: save.document, saveId: save.saveId });
  const bytes = JSON.stringify(save.document).length;
  const { revision, changed } = saved;
  await t.put('revisions', { id: save.id, revision, changed, label: save.label ?? '', bytes, document: save.document });
  const kept = await t.all('revisions', revisionsOf(save.id));
  for (const old of superfluous(kept, changed)) await t.delete('revisions', [save.id, old]);
  return saved;
}
