// SPDX-License-Identifier: Apache-2.0
// The database of a tab whose browser keeps nothing: the same stores in memory, gone with the tab. The page then says so.
import { Database, keyPaths, type StoreName, type Stores, type Transaction } from './database';

type Rows = Map<string, { readonly key: IDBValidKey; readonly value: unknown }>;

export class MemoryDatabase extends Database {
  #stores = new Map<StoreName, Rows>();
  // One transaction after the other, as a database has it.
  #last: Promise<unknown> = Promise.resolve();

  override run<T>(names: StoreName[], _mode: IDBTransactionMode, work: (transaction: Transaction) => Promise<T>): Promise<T> {
    const result = this.#last.then(() => this.#attempt(names, work));
    this.#last = result.catch(() => undefined);
    return result;
  }

  // What a failing work has written is taken back.
  async #attempt<T>(names: StoreName[], work: (transaction: Transaction) => Promise<T>): Promise<T> {
    const before = new Map(names.map((name) => [name, new Map(this.#rows(name))]));
    try {
      return await work(new MemoryTransaction((name) => this.#rows(name)));
    } catch (error) {
      for (const [name, rows] of before) this.#stores.set(name, rows);
      throw error;
    }
  }

  #rows(name: StoreName): Rows {
    let rows = this.#stores.get(name);
    if (!rows) this.#stores.set(name, (rows = new Map()));
    return rows;
  }
}

class MemoryTransaction implements Transaction {
  #rows: (name: StoreName) => Rows;

  constructor(rows: (name: StoreName) => Rows) {
    this.#rows = rows;
  }

  async get<N extends StoreName>(name: N, key: IDBValidKey): Promise<Stores[N] | undefined> {
    return this.#rows(name).get(JSON.stringify(key))?.value as Stores[N] | undefined;
  }

  async all<N extends StoreName>(name: N, range?: IDBKeyRange): Promise<Stores[N][]> {
    const rows = [...this.#rows(name).values()].filter(({ key }) => range === undefined || range.includes(key));
    return rows.sort((a, b) => indexedDBOrder(a.key, b.key)).map(({ value }) => value as Stores[N]);
  }

  async put<N extends StoreName>(name: N, value: Stores[N]): Promise<void> {
    const path = keyPaths[name];
    const of = (key: string): IDBValidKey => (value as unknown as Record<string, IDBValidKey>)[key]!;
    const key = typeof path === 'string' ? of(path) : path.map(of);
    this.#rows(name).set(JSON.stringify(key), { key, value });
  }

  async delete(name: StoreName, key: IDBValidKey): Promise<void> {
    this.#rows(name).delete(JSON.stringify(key));
  }
}

// Numbers before texts, lists member by member: the order of keys in the Indexed Database API, as far as used here.
function indexedDBOrder(a: IDBValidKey, b: IDBValidKey): number {
  if (Array.isArray(a) && Array.isArray(b)) {
    for (let index = 0; index < Math.min(a.length, b.length); index += 1) {
      const order = indexedDBOrder(a[index]!, b[index]!);
      if (order !== 0) return order;
    }
    return a.length - b.length;
  }
  if (typeof a !== typeof b) return typeof a === 'number' ? -1 : 1;
  return a < b ? -1 : a > b ? 1 : 0;
}
