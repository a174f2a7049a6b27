// SPDX-License-Identifier: Apache-2.0
// The outbox: an entry counts as sent once the stored document was seen to hold it, hash for hash.
import 'fake-indexeddb/auto';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import type { JobDocument } from '../../../src/job/document';
import { withEntries, type LogEntry } from '../../../src/job/visit-log';
import { Database, keyPaths } from '../../../src/storage/database';
import { logFile, Outbox, readLogFile } from '../../../src/storage/outbox';
import { garden } from '../support/garden';

let number = 0;
let outbox: Outbox;
const entry = (n: number, value = 12): LogEntry => ({ kind: 'reading', reading: { place: 'F1', quantity: 'voltage', value, unit: 'V' }, id: `e${n}`, visit: 'v', device: 'd', number: n, at: `2026-03-02T20:00:0${n}.000Z` });
const at = '2026-03-02T21:00:00Z';
const holding = (...entries: readonly LogEntry[]): JobDocument => ({ ...garden(), visits: withEntries([], entries) });

beforeEach(() => {
  outbox = new Outbox(new Database(`outbox ${++number}`), 'w');
});

describe('the outbox', () => {
  it('keeps an entry until what was stored gives its hash', async () => {
    await outbox.put(garden(), entry(1));
    await outbox.put(garden(), entry(2));
    expect(await outbox.receive(holding(entry(1)), 4, at)).toBe(1);
    expect((await outbox.unsent('g')).map(({ id }) => id)).toEqual(['e2']);
    expect((await outbox.rows('g')).find(({ id }) => id === 'e1')?.received?.revision).toBe(4);
  });

  it('does not take another value under the same name for a receipt', async () => {
    await outbox.put(garden(), entry(1, 12.61));
    expect(await outbox.receive(holding(entry(1, 12.16)), 4, at)).toBe(1);
  });

  it('knows the entry again with its keys in another order', async () => {
    await outbox.put(garden(), entry(1));
    const { reading, ...rest } = entry(1) as Extract<LogEntry, { kind: 'reading' }>;
    const turned = { reading: Object.fromEntries(Object.entries(reading).reverse()), ...rest } as unknown as LogEntry;
    expect(await outbox.receive(holding(turned), 4, at)).toBe(0);
  });

  it('lets go of what was received 90 days before the last receipt, never of what is unsent, whatever the clock here says', async () => {
    for (const n of [1, 2, 3]) await outbox.put(garden(), entry(n));
    await outbox.receive(holding(entry(1)), 4, at);
    vi.useFakeTimers({ toFake: ['Date'], now: new Date('2027-06-02T00:00:00Z') });
    await outbox.prune();
    vi.useRealTimers();
    expect(await outbox.rows('g')).toHaveLength(3);
    await outbox.receive(holding(entry(2)), 5, '2026-05-30T00:00:00Z');
    await outbox.prune();
    expect(await outbox.rows('g')).toHaveLength(3);
    await outbox.put(garden(), entry(4));
    await outbox.receive(holding(entry(4)), 6, '2026-06-02T00:00:00Z');
    await outbox.prune();
    expect((await outbox.rows('g')).map(({ id }) => id)).toEqual(['e2', 'e3', 'e4']);
  });

  it('keeps the logs of two workspaces apart', async () => {
    const database = new Database(`outbox ${++number}`);
    await new Outbox(database, 'one').put(garden(), entry(1));
    expect(await new Outbox(database, 'other').rows('g')).toEqual([]);
  });

  it('is added to a browser that has the stores of before', async () => {
    const name = `outbox ${++number}`;
    await new Promise<void>((resolve, reject) => {
      const request = indexedDB.open(name, 1);
      request.onupgradeneeded = () => {
        for (const [store, keyPath] of Object.entries(keyPaths)) if (store !== 'outbox') request.result.createObjectStore(store, { keyPath });
      };
      request.onsuccess = () => {
        request.result.close();
        resolve();
      };
      request.onerror = () => reject(request.error);
    });
    const later = new Outbox(new Database(name), 'w');
    await later.put(garden(), entry(1));
    expect(await later.unsent('g')).toHaveLength(1);
  });
});

describe('the raw log as a file', () => {
  it('goes out with all entries, and comes in unchanged', async () => {
    await outbox.put(garden(), entry(2));
    const file = await logFile(holding(entry(1)), await outbox.rows('g'));
    expect(await readLogFile(JSON.stringify(file), 'g')).toEqual([entry(1), entry(2)]);
  });

  it.each([
    ['a changed entry', (text: string) => text.replace('"value":12', '"value":13'), /Entry 1 .* hash does not fit/],
    ['another job’s log', (text: string) => text.replace('"job":"g"', '"job":"h"'), /Open that job/],
    ['another file', () => '{"format":"duskwire-job"}', /no log of visits/],
    ['no JSON', () => 'place,quantity', /no JSON/],
  ])('refuses %s and takes nothing in', async (_what, spoil, message) => {
    const text = JSON.stringify(await logFile(holding(entry(1)), []));
    await expect(readLogFile(spoil(text), 'g')).rejects.toThrow(message);
  });
});
