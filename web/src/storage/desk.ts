// SPDX-License-Identifier: Apache-2.0
// The desk: for each job that was opened on this device its latest document with its undo history, and whether it has
// been sent. It is what survives a closed tab, a vanished server and a flight mode; the workspace stays the truth.
import type { Database, Stores } from './database';
import { LeavingNotes } from './leaving-note';
import type { JobEntry } from './workspace';

export type DeskRow = Stores['desk'];

export class Desk {
  #database: Database;
  #workspace: string;
  #notes: LeavingNotes;

  constructor(database: Database, workspace: string, notes = new LeavingNotes(workspace)) {
    this.#database = database;
    this.#workspace = workspace;
    this.#notes = notes;
  }

  async put(row: Omit<DeskRow, 'workspace'>): Promise<void> {
    const noNoteNeeded = this.#notes.outdatedBy(row.id);
    await this.#database.run(['desk'], 'readwrite', (t) => t.put('desk', { ...row, workspace: this.#workspace }, 'last'));
    noNoteNeeded();
  }

  /** As the page is left: kept at once, whatever becomes of the database's turn. `put` follows all the same. */
  note(row: Omit<DeskRow, 'workspace'>): void {
    this.#notes.write({ ...row, workspace: this.#workspace });
  }

  async get(id: string): Promise<DeskRow | undefined> {
    await this.#takeNotes();
    return this.#database.run(['desk'], 'readonly', (t) => t.get('desk', [this.#workspace, id]));
  }

  clear(id: string): Promise<void> {
    return this.#database.run(['desk'], 'readwrite', (t) => t.delete('desk', [this.#workspace, id]));
  }

  async unsent(): Promise<readonly DeskRow[]> {
    await this.#takeNotes();
    const rows = await this.#database.run(['desk'], 'readonly', (t) => t.all('desk', IDBKeyRange.bound([this.#workspace], [this.#workspace, []])));
    return rows.filter((row) => row.unsent !== null);
  }

  keepList(entries: readonly JobEntry[]): Promise<void> {
    const row = { workspace: this.#workspace, entries, seen: new Date().toISOString() };
    return this.#database.run(['lists'], 'readwrite', (t) => t.put('lists', row));
  }

  keptList(): Promise<Stores['lists'] | undefined> {
    return this.#database.run(['lists'], 'readonly', (t) => t.get('lists', this.#workspace));
  }

  // What an earlier page noted as it was left; where somebody has gone on from a later revision since, that stands.
  #takeNotes(): Promise<void> {
    return this.#notes.hand((row) =>
      this.#database.run(['desk'], 'readwrite', async (t) => {
        const there = await t.get('desk', [row.workspace, row.id]);
        if (!there || there.revision <= row.revision) await t.put('desk', row);
      }),
    );
  }
}
