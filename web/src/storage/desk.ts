// SPDX-License-Identifier: Apache-2.0
// The desk: for each job that was opened on this device its latest document with its undo history, and whether it has
// been sent. It is what survives a closed tab, a vanished server and a flight mode; the workspace stays the truth.
import type { Database, Stores } from './database';
import type { JobEntry } from './workspace';

export type DeskRow = Stores['desk'];

export class Desk {
  #database: Database;
  #workspace: string;

  constructor(database: Database, workspace: string) {
    this.#database = database;
    this.#workspace = workspace;
  }

  put(row: Omit<DeskRow, 'workspace'>): Promise<void> {
    return this.#database.run(['desk'], 'readwrite', (t) => t.put('desk', { ...row, workspace: this.#workspace }, 'last'));
  }

  get(id: string): Promise<DeskRow | undefined> {
    return this.#database.run(['desk'], 'readonly', (t) => t.get('desk', [this.#workspace, id]));
  }

  clear(id: string): Promise<void> {
    return this.#database.run(['desk'], 'readwrite', (t) => t.delete('desk', [this.#workspace, id]));
  }

  async unsent(): Promise<readonly DeskRow[]> {
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
}
