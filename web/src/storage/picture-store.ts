// SPDX-License-Identifier: Apache-2.0
// Pictures as views use them: at hand on this device first, so that they are there without signal; the workspace gets
// them before the document that refers to them.
import type { Database } from './database';
import { sha256Hex } from './sha256';
import { StorageFailure, type Workspace } from './workspace';

export class PictureStore {
  #database: Database;
  #workspace: Workspace;

  constructor(database: Database, workspace: Workspace) {
    this.#database = database;
    this.#workspace = workspace;
  }

  async put(blob: Blob): Promise<string> {
    const hash = await sha256Hex(await blob.arrayBuffer());
    const pending = this.#workspace.id === 'browser' ? null : this.#workspace.id;
    await this.#database.run(['images'], 'readwrite', (t) => t.put('images', { hash, blob, pending }));
    return hash;
  }

  async get(hash: string): Promise<Blob> {
    const row = await this.#row(hash);
    if (row) return row.blob;
    const blob = await this.#workspace.picture(hash);
    await this.#database.run(['images'], 'readwrite', (t) => t.put('images', { hash, blob, pending: null })).catch(() => undefined);
    return blob;
  }

  /** Sends those that the workspace lacks. Returns the hashes that it gave to others than they had. */
  async send(hashes: Iterable<string>): Promise<ReadonlyMap<string, string>> {
    const renamed = new Map<string, string>();
    for (const hash of new Set(hashes)) {
      const row = await this.#row(hash);
      if (row?.pending !== this.#workspace.id) continue;
      const given = await this.#workspace.putPicture(row.blob);
      await this.#database.run(['images'], 'readwrite', async (t) => {
        // Under the old hash it stays pending: an undo may refer to it again.
        if (given === hash) await t.put('images', { ...row, pending: null });
        else await t.put('images', { hash: given, blob: row.blob, pending: null });
      });
      if (given !== hash) renamed.set(hash, given);
    }
    return renamed;
  }

  async #row(hash: string) {
    try {
      return await this.#database.run(['images'], 'readonly', (t) => t.get('images', hash));
    } catch (error) {
      if (error instanceof StorageFailure) return undefined;
      throw error;
    }
  }
}
