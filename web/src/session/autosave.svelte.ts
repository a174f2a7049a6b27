// SPDX-License-Identifier: Apache-2.0
// Autosave: each change goes to the desk (this device) at once and to the workspace a moment later. Nothing is called
// saved before the workspace said so, and what could not be sent stays on the desk and is tried again.
import type { JobDocument } from '../job/document';
import type { History } from '../job/history';
import { randomId } from '../job/ids';
import type { Desk, DeskRow } from '../storage/desk';
import { StorageFailure, type Base, type Summary, type Workspace } from '../storage/workspace';

export type SaveState =
  | 'saved'
  | 'changed' // not sent yet
  | 'saving'
  | 'kept' // the workspace does not answer; the desk has it
  | 'conflict' // somebody else saved meanwhile
  | 'failed'; // neither took it: the page alone has it

export interface Conflict {
  readonly theirRevision: number;
  readonly theirChecksum: string | undefined;
  /** Not somebody else's save, but a backup that was put back. */
  readonly putBack: boolean;
  readonly theirChanged: string;
}

export type Unsent = NonNullable<DeskRow['unsent']>;

export interface SaveSource {
  readonly document: JobDocument;
  readonly history: History;
  readonly summary: Summary | undefined;
  /** Done before each save, e.g. sending pictures; may change the document. */
  readonly prepare?: () => Promise<void>;
  /** The workspace has stored it as this revision. */
  readonly stored?: (revision: number) => Promise<void>;
  /** Somebody else saved: brings both sides together where nobody need be asked; true where it has. */
  readonly join?: (our: Base) => Promise<boolean>;
}

export interface Delays {
  readonly desk: number;
  readonly quiet: number;
  readonly longest: number;
  readonly retry: number;
}

export const usualDelays: Delays = { desk: 150, quiet: 700, longest: 3000, retry: 5000 };
const mostTried = 20;

export class Autosave {
  state: SaveState = $state('saved');
  /** Since when there is unsent work, ISO 8601. */
  since: string | undefined = $state();
  message: string | undefined = $state();
  conflict: Conflict | undefined = $state.raw();
  /** The workspace had lost the job, and has it again from here. */
  putBack = $state(false);
  /** The workspace's revision that the document grew from. */
  revision = $state(0);

  #checksum: string | undefined;
  #workspace: Workspace;
  #desk: Desk;
  #source: SaveSource;
  #delays: Delays;
  #label = '';
  // The document that the workspace has, or undefined where none of ours.
  #sent: JobDocument | undefined;
  #attempt: { readonly document: JobDocument; readonly saveId: string } | undefined;
  #tried: readonly string[] = [];
  #busy: Promise<void> | undefined;
  #deskTimer: ReturnType<typeof setTimeout> | undefined;
  #keptAt = -Infinity;
  #sendTimer: ReturnType<typeof setTimeout> | undefined;
  #waitingSince: number | undefined;
  #onDesk = true;
  #stopped = false;

  constructor(workspace: Workspace, desk: Desk, from: Base, source: SaveSource, delays: Delays = usualDelays) {
    this.#workspace = workspace;
    this.#desk = desk;
    this.#source = source;
    this.#delays = delays;
    this.#sent = source.document;
    this.#goFrom(from);
  }

  changed(label: string): void {
    this.#label = label;
    this.since ??= new Date().toISOString();
    if (this.state === 'saved' || this.state === 'saving') this.state = 'changed';
    this.#onDesk = false;
    this.#keepSoon();
    if (this.state !== 'kept') this.#schedule();
  }

  /** Goes on with work that an earlier page could not send. */
  resume({ label, since, tried }: Unsent): void {
    this.#sent = undefined;
    this.#tried = tried;
    this.since = since;
    this.changed(label);
  }

  /** What was saved may be gone: everything is kept and sent once more. */
  again(): void {
    if (this.#stopped) return;
    this.#sent = undefined;
    this.#attempt = undefined;
    this.changed('Saved once more');
  }

  /** The page is left, or may end out of sight: what the desk lacks is noted at once, then sent like any other. */
  leave(): void {
    if (!this.#onDesk) this.#desk.note(this.#row());
    void this.flush();
  }

  /** Sends now what is unsent; resolves once that is done or has failed (see `state`). */
  async flush(): Promise<void> {
    clearTimeout(this.#sendTimer);
    if (!this.#onDesk) await this.#keep();
    await this.#busy;
    if (this.#sent === this.#source.document || this.state === 'conflict') return;
    this.#busy = this.#send().finally(() => (this.#busy = undefined));
    await this.#busy;
  }

  /** The person decided to keep what is here: it becomes the revision after theirs. */
  async keepMine(): Promise<void> {
    if (!this.conflict) return;
    this.#goFrom({ revision: this.conflict.theirRevision, checksum: this.conflict.theirChecksum });
    this.#settleConflict();
    await this.flush();
  }

  /** The person decided for the other side, which the store shows by now; `more`: and what it lacked beside it. */
  async tookTheirs(theirs: Base, more = false): Promise<void> {
    this.#goFrom(theirs);
    this.#settleConflict();
    if (more) {
      this.#sent = undefined;
      this.#schedule();
    } else {
      this.#nowSent(this.#source.document);
    }
    await this.#keep();
  }

  stop(): void {
    this.#stopped = true;
    clearTimeout(this.#deskTimer);
    clearTimeout(this.#sendTimer);
  }

  #goFrom({ revision, checksum }: Base): void {
    this.revision = revision;
    this.#checksum = checksum;
  }

  #settleConflict(): void {
    this.conflict = undefined;
    this.state = 'changed';
    this.#attempt = undefined;
    this.#tried = [];
  }

  #schedule(): void {
    const now = Date.now();
    this.#waitingSince ??= now;
    const wait = Math.max(0, Math.min(this.#delays.quiet, this.#waitingSince + this.#delays.longest - now));
    this.#sendAfter(wait);
  }

  #sendAfter(milliseconds: number): void {
    clearTimeout(this.#sendTimer);
    if (!this.#stopped) this.#sendTimer = setTimeout(() => void this.flush(), milliseconds);
  }

  // A single change goes to the desk at once: the page may be closed the next moment, and what is begun while it closes
  // is not always brought to its end. A row of changes goes there from time to time, and no later where the device's clock
  // is set back meanwhile.
  #keepSoon(): void {
    if (this.#deskTimer !== undefined) return;
    const wait = Math.min(this.#delays.desk, Math.max(0, this.#keptAt + this.#delays.desk - Date.now()));
    if (wait === 0) void this.#keep();
    else this.#deskTimer = setTimeout(() => void this.#keep(), wait);
  }

  async #keep(): Promise<void> {
    clearTimeout(this.#deskTimer);
    this.#deskTimer = undefined;
    this.#keptAt = Date.now();
    const row = this.#row();
    try {
      await this.#desk.put(row);
      this.#onDesk = row.document === this.#source.document;
      if (this.state === 'failed') this.state = 'kept';
    } catch (error) {
      // With the workspace at hand the desk may fail; without both the page alone has the work.
      if (this.state === 'kept') this.#tell('failed', error);
    }
  }

  #row(): Omit<DeskRow, 'workspace'> {
    const { document, history } = this.#source;
    const unsent = document === this.#sent ? null : { label: this.#label, since: this.since ?? '', tried: this.#tried };
    return { id: document.id, revision: this.revision, checksum: this.#checksum, document, history, unsent };
  }

  async #send(): Promise<void> {
    try {
      await this.#source.prepare?.();
    } catch (error) {
      return this.#refused(error);
    }
    const { document, summary } = this.#source;
    // The same document is sent again under the same id; a new one gets its own.
    if (this.#attempt?.document !== document) this.#attempt = { document, saveId: randomId('save', 16) };
    const { saveId } = this.#attempt;
    this.#tried = [...this.#tried.filter((id) => id !== saveId), saveId].slice(-mostTried);
    this.#waitingSince = undefined;
    if (this.state !== 'kept') this.state = 'saving';
    const save = { id: document.id, baseRevision: this.revision, baseChecksum: this.#checksum, saveId, document, label: this.#label };
    try {
      const saved = await this.#workspace.save(summary === undefined ? save : { ...save, summary });
      this.#goFrom(saved);
      this.putBack ||= saved.putBack ?? false;
      this.#tried = [];
      this.#nowSent(document);
      // A receipt that does not come now is asked for after the next save.
      await this.#source.stored?.(saved.revision).catch(() => undefined);
    } catch (error) {
      await this.#refused(error);
    }
    await this.#keep();
  }

  #nowSent(document: JobDocument): void {
    this.#sent = document;
    this.message = undefined;
    if (document === this.#source.document) {
      this.state = 'saved';
      this.since = undefined;
    } else {
      this.state = 'changed';
      this.#schedule();
    }
  }

  async #refused(error: unknown): Promise<void> {
    if (error instanceof StorageFailure && error.kind === 'not_found' && this.revision > 0) {
      // Nothing takes a job out of a workspace: a backup from before it was put back. What is here makes it again.
      this.#goFrom({ revision: 0 });
      this.putBack = true;
      return this.#sendAfter(0);
    }
    if (!(error instanceof StorageFailure) || error.kind !== 'conflict' || error.currentRevision === undefined) {
      this.#tell('kept', error);
      return this.#sendAfter(this.#delays.retry);
    }
    const theirs: Base = { revision: error.currentRevision, checksum: error.currentChecksum };
    if (error.currentSaveId !== undefined && this.#tried.includes(error.currentSaveId)) {
      // Our own save arrived, its answer did not: go on from there.
      this.#goFrom(theirs);
      this.#tried = [];
      this.#sendAfter(0);
    } else if (await this.#source.join?.({ revision: this.revision, checksum: this.#checksum }).catch(() => false)) {
      this.#goFrom(theirs);
      this.#settleConflict();
      this.#sendAfter(0);
    } else {
      const putBack = theirs.revision <= this.revision;
      this.conflict = { theirRevision: theirs.revision, theirChecksum: theirs.checksum, theirChanged: error.currentChanged ?? '', putBack };
      this.#tell('conflict', error);
    }
  }

  #tell(state: SaveState, error: unknown): void {
    this.state = state;
    this.message = error instanceof Error ? error.message : String(error);
  }
}
