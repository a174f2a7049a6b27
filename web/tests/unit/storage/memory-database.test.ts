// SPDX-License-Identifier: Apache-2.0
// The stores in memory behave as those of the browser: the same workspace runs on both.
import 'fake-indexeddb/auto';
import { describe, expect, it } from 'vitest';
import { BrowserWorkspace } from '../../../src/storage/browser';
import { Database } from '../../../src/storage/database';
import { MemoryDatabase } from '../../../src/storage/memory-database';
import { garden } from '../support/garden';

describe.each([['memory', () => new MemoryDatabase()], ['the browser', () => new Database('both')]])('a workspace in %s', (_, make) => {
  it('keeps revisions in order, refuses a stale save, and stores nothing of it', async () => {
    const workspace = new BrowserWorkspace(make());
    for (let base = 0; base < 11; base += 1) await workspace.save({ id: 'g', baseRevision: base, saveId: `s${base}`, document: garden(`Garden ${base}`), label: '' });
    await expect(workspace.save({ id: 'g', baseRevision: 3, saveId: 'stale', document: garden('Stale'), label: '' })).rejects.toMatchObject({ kind: 'conflict', currentRevision: 11 });
    expect((await workspace.open('g')).document.title).toBe('Garden 10');
    expect((await workspace.revisions('g'))[0]!.revision).toBe(11);
    await workspace.duplicate('g', 'g2', 'Copy');
    expect((await workspace.list()).map(({ id }) => id).sort()).toEqual(['g', 'g2']);
  });

  it('takes back what a failing work has written', async () => {
    const database = make();
    const row = { workspace: 'w', entries: [], seen: 'now' };
    await expect(database.run(['lists'], 'readwrite', async (t) => { await t.put('lists', row); throw new Error('No.'); })).rejects.toThrow('No.');
    expect(await database.run(['lists'], 'readonly', (t) => t.get('lists', 'w'))).toBeUndefined();
  });
});

describe('a browser that refuses', () => {
  it('is seen as one that keeps nothing', async () => {
    const { indexedDB } = globalThis;
    globalThis.indexedDB = { open: () => { throw new DOMException('Refused.', 'SecurityError'); } } as unknown as IDBFactory;
    expect(await new Database('x').usable()).toBe(false);
    globalThis.indexedDB = indexedDB;
    expect(await new Database('x').usable()).toBe(true);
  });
});
