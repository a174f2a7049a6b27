// SPDX-License-Identifier: Apache-2.0
// Autosave: each change goes to the desk (this device) at once and to the workspace a moment later. Nothing is called
// saved before the workspace said so, and what could not be sent stays on the desk and is tried again.
import type { JobDocument } from '../job/document';
import type { History } from '../job/history';
import { randomId } from '../job/ids';
import type { Desk } from '../storage/desk';
import { StorageFailure, type Summary, type Workspace } from '../storage/workspace';

export type SaveState =
  | 'saved'
  | 'changed' // not sent yet
  | 'saving'
  | 'kept' // the workspace does not answer; the desk has it
  | 'conflict' // somebody else saved meanwhile
  | 'failed'; // neither took it: the page alone has it

export interface Conflict {
  readonly theirRevision: number;
  readonly theirChanged: string;
}

export interface SaveSource {
  readonly document: JobDocument;
  readonly history: History;
  readonly summary: Summary | undefined;
}

const deskDelay = 150;
const quietDelay = 700;
const longestDelay = 3000;
const retryDelay = 5000;

export class Autosave {
  state: SaveState = $state('saved');
  /** Since when there is unsent work, ISO 8601. */
  since: string | undefined = $state();
  message: string | undefined = $state();
  conflict: Conflict | undefined = $state.raw();
  revision = $state(0);

  #workspace: Workspace;
  #desk: Desk;
  #source: SaveSource;
  #label = '';
  #saveId = randomId('save', 16);
  #dirty = false;
  #busy: Promise<void> | undefined;
  #deskTimer: ReturnType<typeof setTimeout> | undefined;
  #sendTimer: ReturnType<typeof setTimeout> | undefined;
  #firstChange = 0;
  #stopped = false;

  constructor(workspace: Workspace, desk: Desk, revision: number, source: SaveSource) {
    this.#workspace = workspace;
    this.#desk = desk;
    this.#source = source;
    this.revision = revision;
  }

  changed(label: string): void {
    this.#label = label;
    this.#dirty = true;
    this.since ??= new Date().toISOString();
    if (this.state !== 'conflict') this.state = 'changed';
    clearTimeout(this.#deskTimer);
    this.#deskTimer = setTimeout(() => void this.#keep(), deskDelay);
    this.#schedule(quietDelay);
  }

  /** Sends now what is unsent; resolves once that is done or has failed (see `state`). */
  async flush(): Promise<void> {
    clearTimeout(this.#sendTimer);
    await this.#busy;
    if (!this.#dirty || this.state === 'conflict') return;
    this.#busy = this.#send().finally(() => (this.#busy = undefined));
    await this.#busy;
  }

  /** The person decided to keep what is here: it becomes the revision after theirs. */
  async keepMine(): Promise<void> {
    if (!this.conflict) return;
    this.revision = this.conflict.theirRevision;
    this.#settleConflict();
    this.#dirty = true;
    await this.flush();
  }

  /** The person decided for the other side, which the store shows by now. */
  async tookTheirs(revision: number): Promise<void> {
    this.revision = revision;
    this.#settleConflict();
    this.#dirty = false;
    this.#saved();
    await this.#keep();
  }

  stop(): void {
    this.#stopped = true;
    clearTimeout(this.#deskTimer);
    clearTimeout(this.#sendTimer);
  }

  #settleConflict(): void {
    this.conflict = undefined;
    this.state = 'changed';
    this.#saveId = randomId('save', 16);
  }

  #schedule(delay: number): void {
    const now = Date.now();
    if (this.#firstChange === 0) this.#firstChange = now;
    const wait = Math.max(0, Math.min(delay, this.#firstChange + longestDelay - now));
    clearTimeout(this.#sendTimer);
    if (!this.#stopped) this.#sendTimer = setTimeout(() => void this.flush(), wait);
  }

  async #keep(): Promise<void> {
    const { document, history } = this.#source;
    const unsent = this.#dirty ? { saveId: this.#saveId, label: this.#label, since: this.since ?? '' } : null;
    try {
      await this.#desk.put({ id: document.id, revision: this.revision, document, history, unsent });
    } catch (error) {
      if (this.#dirty && this.state === 'kept') this.#fail(error);
    }
  }

  async #send(): Promise<void> {
    const { document, summary } = this.#source;
    const saveId = this.#saveId;
    this.#dirty = false;
    this.#firstChange = 0;
    this.state = 'saving';
    try {
      const save = { id: document.id, baseRevision: this.revision, saveId, document, label: this.#label };
      const { revision } = await this.#workspace.save(summary === undefined ? save : { ...save, summary });
      this.revision = revision;
      this.#saveId = randomId('save', 16);
      if (this.#dirty) this.state = 'changed';
      else this.#saved();
      await this.#keep();
    } catch (error) {
      this.#dirty = true;
      this.#refused(error);
      await this.#keep();
    }
  }

  #saved(): void {
    this.state = 'saved';
    this.since = undefined;
    this.message = undefined;
  }

  #refused(error: unknown): void {
    if (error instanceof StorageFailure && error.kind === 'conflict' && error.currentRevision !== undefined) {
      this.conflict = { theirRevision: error.currentRevision, theirChanged: error.currentChanged ?? '' };
      this.state = 'conflict';
      this.message = error.message;
      return;
    }
    this.state = 'kept';
    this.message = error instanceof Error ? error.message : String(error);
    this.#firstChange = Date.now() + retryDelay;
    if (!this.#stopped) this.#sendTimer = setTimeout(() => void this.flush(), retryDelay);
  }

  #fail(error: unknown): void {
    this.state = 'failed';
    this.message = error instanceof Error ? error.message : String(error);
  }
}
