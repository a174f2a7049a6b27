// SPDX-License-Identifier: Apache-2.0
// The browser's own database (IndexedDB), opened once, with promises. What each store holds: see `Stores`.
import type { CatalogueFile, JobDocument } from '../job/document';
import type { History } from '../job/history';
import type { LogEntry } from '../job/visit-log';
import { StorageFailure, type JobEntry } from './workspace';

export interface Stores {
  /** Jobs of this browser, with their latest document. Key: entry.id. */
  jobs: { readonly id: string; readonly entry: JobEntry; readonly document: JobDocument; readonly saveId: string };
  /** Their earlier states. Key: [id, revision]. */
  revisions: {
    readonly id: string;
    readonly revision: number;
    readonly changed: string;
    readonly label: string;
    readonly bytes: number;
    readonly document: JobDocument;
  };
  /** Pictures by the hash of their content. */
  images: { readonly hash: string; readonly blob: Blob; /** Workspace that has yet to get it. */ readonly pending: string | null };
  /** The shop's catalogue. Key: "shop". */
  catalogues: { readonly key: string; readonly revision: number; readonly changed: string; readonly document: CatalogueFile };
  /** What lies open on the desk: see desk.ts. Key: [workspace, id]. */
  desk: {
    readonly workspace: string;
    readonly id: string;
    readonly revision: number;
    /** Of that revision in the workspace, where it tells one. */
    readonly checksum?: string | undefined;
    readonly document: JobDocument;
    readonly history: History;
    /** Absent: the workspace has it. `tried`: saves of it whose answers may have been lost. */
    readonly unsent: { readonly label: string; readonly since: string; readonly tried: readonly string[] } | null;
  };
  /** What this device wrote into logs of visits: see outbox.ts. Key: [workspace, entry.id]. */
  outbox: {
    readonly workspace: string;
    readonly id: string;
    readonly job: string;
    readonly title: string;
    readonly entry: LogEntry;
    readonly hash: string;
    /** When the workspace was seen to hold it, and in which revision; null: not yet. */
    readonly received: { readonly at: string; readonly revision: number } | null;
  };
  /** The last list of jobs that a server gave. Key: workspace. */
  lists: { readonly workspace: string; readonly entries: readonly JobEntry[]; readonly seen: string };
}

export type StoreName = keyof Stores;

export const keyPaths: Record<StoreName, string | string[]> = {
  jobs: 'id',
  revisions: ['id', 'revision'],
  images: 'hash',
  catalogues: 'key',
  desk: ['workspace', 'id'],
  lists: 'workspace',
  outbox: ['workspace', 'id'],
};

// 2: the outbox.
const schemaVersion = 2;

export class Database {
  /** Called when the browser has taken the storage away under the open page (site data cleared, evicted). */
  onlost: (() => void) | undefined;
  #open: Promise<IDBDatabase> | undefined;
  #name: string;

  constructor(name = 'duskwire') {
    this.#name = name;
  }

  /** Runs `work` in one transaction; it is durable once the promise fulfils. */
  async run<T>(names: StoreName[], mode: IDBTransactionMode, work: (transaction: Transaction) => Promise<T>): Promise<T> {
    try {
      return await this.#run(names, mode, work);
    } catch (error) {
      // Closed under us before the work began: open it anew, once.
      if (!(error instanceof Closed)) throw error;
      this.#open = undefined;
      return await this.#run(names, mode, work).catch((again: unknown) => {
        throw asFailure(again);
      });
    }
  }

  async #run<T>(names: StoreName[], mode: IDBTransactionMode, work: (transaction: Transaction) => Promise<T>): Promise<T> {
    const database = await this.#database();
    try {
      const raw = begin(database, names, mode);
      const done = new Promise<void>((resolve, reject) => {
        raw.oncomplete = () => resolve();
        raw.onabort = () => reject(raw.error ?? new Error('The browser stopped the save.'));
      });
      done.catch(() => undefined); // reported by the await below, or by the work's own failure
      const result = await work(new BrowserTransaction(raw)).catch((error: unknown) => {
        if (raw.error === null) abort(raw);
        throw error;
      });
      await done;
      return result;
    } catch (error) {
      throw error instanceof Closed ? error : asFailure(error);
    }
  }

  /** Whether the browser lets the page keep anything at all. */
  async usable(): Promise<boolean> {
    return this.run(['lists'], 'readonly', async () => true).catch(() => false);
  }

  #database(): Promise<IDBDatabase> {
    const closed = (lost: boolean): void => {
      this.#open = undefined;
      if (lost) this.onlost?.();
    };
    this.#open ??= openDatabase(this.#name, closed).catch((error: unknown) => {
      this.#open = undefined;
      throw asFailure(error);
    });
    return this.#open;
  }
}

/** What work inside one transaction may do. */
export interface Transaction {
  get<N extends StoreName>(name: N, key: IDBValidKey): Promise<Stores[N] | undefined>;
  all<N extends StoreName>(name: N, range?: IDBKeyRange): Promise<Stores[N][]>;
  /** `last`: nothing follows in this transaction, so that it ends also where the page is gone before the answer. */
  put<N extends StoreName>(name: N, value: Stores[N], last?: 'last'): Promise<void>;
  delete(name: StoreName, key: IDBValidKey): Promise<void>;
}

class BrowserTransaction implements Transaction {
  #raw: IDBTransaction;

  constructor(raw: IDBTransaction) {
    this.#raw = raw;
  }

  get<N extends StoreName>(name: N, key: IDBValidKey): Promise<Stores[N] | undefined> {
    return settle(this.#raw.objectStore(name).get(key) as IDBRequest<Stores[N] | undefined>);
  }

  all<N extends StoreName>(name: N, range?: IDBKeyRange): Promise<Stores[N][]> {
    return settle(this.#raw.objectStore(name).getAll(range) as IDBRequest<Stores[N][]>);
  }

  async put<N extends StoreName>(name: N, value: Stores[N], last?: 'last'): Promise<void> {
    const request = this.#raw.objectStore(name).put(value);
    if (last) this.#raw.commit();
    await settle(request);
  }

  async delete(name: StoreName, key: IDBValidKey): Promise<void> {
    await settle(this.#raw.objectStore(name).delete(key));
  }
}

function settle<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error ?? new Error('The browser refused.'));
  });
}

function abort(raw: IDBTransaction): void {
  try {
    raw.abort();
  } catch {
    // It had ended already.
  }
}

class Closed extends Error {}

function begin(database: IDBDatabase, names: StoreName[], mode: IDBTransactionMode): IDBTransaction {
  try {
    return database.transaction(names, mode, { durability: 'strict' });
  } catch (error) {
    throw error instanceof DOMException && error.name === 'InvalidStateError' ? new Closed() : error;
  }
}

function openDatabase(name: string, closed: (lost: boolean) => void): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open(name, schemaVersion);
    request.onupgradeneeded = () => {
      const there = request.result.objectStoreNames;
      for (const [store, keyPath] of Object.entries(keyPaths)) if (!there.contains(store)) request.result.createObjectStore(store, { keyPath });
    };
    request.onsuccess = () => {
      // Another tab with a newer page must not wait for this one.
      request.result.onversionchange = () => {
        request.result.close();
        closed(false);
      };
      request.result.onclose = () => closed(true);
      resolve(request.result);
    };
    request.onerror = () => reject(request.error ?? new Error('The browser keeps its storage closed.'));
  });
}

function asFailure(error: unknown): StorageFailure {
  if (error instanceof StorageFailure) return error;
  const name = error instanceof Error ? error.name : '';
  if (name === 'QuotaExceededError') {
    return new StorageFailure('full', 'This browser has no room left. Export jobs to files, or free up the disk.');
  }
  const why = error instanceof Error ? error.message : String(error);
  return new StorageFailure('unreachable', `This browser does not let the page keep data: ${why}`);
}
