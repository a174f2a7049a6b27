// SPDX-License-Identifier: Apache-2.0
// What is written in the moment a page is left. Work that the browser's database is given then is lost where an earlier
// save is still on its way to the disk: the page is gone before its turn comes. A text in the browser's plain storage is
// taken at once, so the last state goes there too, and into the database when the job is next asked for.
import type { DeskRow } from './desk';

const prefix = 'duskwire-left/';

export class LeavingNotes {
  #storage: Storage | undefined;
  #prefix: string;
  #written = new Map<string, object>();

  constructor(workspace: string, storage: Storage | undefined = storageOfBrowser()) {
    this.#storage = storage;
    this.#prefix = `${prefix}${encodeURIComponent(workspace)}/`;
  }

  /** At once. Where there is no room the database is all there is. */
  write(row: DeskRow): void {
    try {
      this.#storage?.setItem(this.#prefix + row.id, JSON.stringify(row));
      this.#written.set(row.id, {});
    } catch {
      this.#drop(row.id);
    }
  }

  /** To be called before newer work is stored, and what it returns once that is done: the note is of no use then. */
  outdatedBy(id: string): () => void {
    const written = this.#written.get(id);
    return () => {
      if (written !== undefined && this.#written.get(id) === written) this.#drop(id);
    };
  }

  /** Those of an earlier page, which `store` takes over; a note stays where it cannot. */
  async hand(store: (row: DeskRow) => Promise<void>): Promise<void> {
    for (const { id, row } of this.#left()) {
      const taken = row === undefined || (await store(row).then(() => true, () => false));
      if (taken) this.#drop(id);
    }
  }

  #left(): { readonly id: string; readonly row: DeskRow | undefined }[] {
    const storage = this.#storage;
    if (!storage) return [];
    const keys = Array.from({ length: storage.length }, (_, index) => storage.key(index) ?? '');
    return keys
      .filter((key) => key.startsWith(this.#prefix))
      .map((key) => ({ id: key.slice(this.#prefix.length), row: readRow(storage.getItem(key)) }))
      .filter(({ id }) => !this.#written.has(id));
  }

  #drop(id: string): void {
    this.#written.delete(id);
    this.#storage?.removeItem(this.#prefix + id);
  }
}

function readRow(text: string | null): DeskRow | undefined {
  try {
    return JSON.parse(text ?? '') as DeskRow;
  } catch {
    return undefined;
  }
}

function storageOfBrowser(): Storage | undefined {
  try {
    return globalThis.localStorage;
  } catch {
    return undefined; // the browser keeps it closed
  }
}
