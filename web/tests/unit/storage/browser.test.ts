// SPDX-License-Identifier: Apache-2.0
import 'fake-indexeddb/auto';
import { beforeEach, describe, expect, it } from 'vitest';
import { BrowserWorkspace } from '../../../src/storage/browser';
import { Database } from '../../../src/storage/database';
import { newest, superfluous } from '../../../src/storage/thinning';
import { garden } from '../support/garden';

let number = 0;
let workspace: BrowserWorkspace;
const save = (baseRevision: number, saveId: string, title = 'Garden') =>
  workspace.save({ id: 'g', baseRevision, saveId, document: garden(title), label: title });

beforeEach(() => {
  workspace = new BrowserWorkspace(new Database(`browser ${++number}`));
});

describe('the workspace in the browser', () => {
  it('counts revisions and keeps each of them', async () => {
    expect((await save(0, 'a', 'one')).revision).toBe(1);
    expect((await save(1, 'b', 'two')).revision).toBe(2);
    expect((await workspace.open('g')).document.title).toBe('two');
    expect((await workspace.openRevision('g', 1)).document.title).toBe('one');
    expect((await workspace.revisions('g')).map(({ label }) => label)).toEqual(['two', 'one']);
  });

  it('refuses a stale save and names the present revision', async () => {
    await save(0, 'a', 'one');
    await save(1, 'b', 'two');
    await expect(save(1, 'c', 'late')).rejects.toMatchObject({ kind: 'conflict', currentRevision: 2, currentSaveId: 'b' });
    expect((await workspace.open('g')).document.title).toBe('two');
  });

  it('counts a repeated save once', async () => {
    await save(0, 'a');
    await save(1, 'b');
    expect((await save(1, 'b')).revision).toBe(2);
  });

  it('lets one of two writers at once win', async () => {
    await save(0, 'a');
    const both = await Promise.allSettled([save(1, 'b', 'left'), save(1, 'c', 'right')]);
    expect(both.filter(({ status }) => status === 'fulfilled')).toHaveLength(1);
  });

  it('refuses to make a job whose id is taken', async () => {
    await save(0, 'a');
    await expect(save(0, 'b')).rejects.toMatchObject({ kind: 'conflict' });
  });

  it('takes a job back that it has lost, says so, and goes on counting', async () => {
    expect(await save(3, 's')).toMatchObject({ revision: 4, putBack: true });
    expect(await save(4, 't')).not.toHaveProperty('putBack');
    expect((await workspace.revisions('g')).map(({ revision }) => revision)).toEqual([5, 4]);
  });

  it('opens its storage anew when that was taken away under it, and tells', async () => {
    const name = `browser ${++number}`;
    const database = new Database(name);
    let lost = 0;
    database.onlost = () => (lost += 1);
    workspace = new BrowserWorkspace(database);
    await save(0, 'a');
    await save(1, 'b');
    // As a newer page's upgrade or a cleared site closes it.
    await new Promise((done) => Object.assign(indexedDB.deleteDatabase(name), { onsuccess: done }));
    expect(await save(2, 'c', 'still here')).toMatchObject({ revision: 3, putBack: true });
    expect((await workspace.open('g')).document.title).toBe('still here');
    expect(lost).toBe(0);
  });

  it('duplicates, archives and lists', async () => {
    await save(0, 'a', 'one');
    await workspace.duplicate('g', 'h', 'copy');
    await workspace.archive('g', true);
    const list = await workspace.list();
    expect(list.map(({ id, title, archived }) => ({ id, title, archived })).sort((a, b) => a.id.localeCompare(b.id))).toEqual([
      { id: 'g', title: 'one', archived: true },
      { id: 'h', title: 'copy', archived: false },
    ]);
  });

  it('keeps pictures by their content', async () => {
    const blob = new Blob(['picture'], { type: 'image/png' });
    const hash = await workspace.putPicture(blob);
    expect(hash).toMatch(/^[0-9a-f]{64}$/);
    expect(await workspace.putPicture(new Blob(['picture']))).toBe(hash);
    expect((await workspace.picture(hash)).size).toBe(7);
    await expect(workspace.picture('0'.repeat(64))).rejects.toMatchObject({ kind: 'not_found' });
  });

  it('refuses a stale shop catalogue', async () => {
    const file = { format: 'duskwire-catalogue', version: 1 } as const;
    expect((await workspace.shopCatalogue()).document).toBeNull();
    await workspace.saveShopCatalogue({ revision: 0 }, file);
    await expect(workspace.saveShopCatalogue({ revision: 0 }, file)).rejects.toMatchObject({ kind: 'conflict' });
  });
});

describe('thinning', () => {
  const now = '2026-03-02T12:00:00.000Z';
  const at = (minutes: number, revision: number) => ({
    revision,
    changed: new Date(Date.parse(now) - minutes * 60_000).toISOString(),
  });

  // The newest twenty stay whatever their age; behind them the ages count.
  const late = Array.from({ length: newest }, (_, index) => at(0, 100 + index));

  it('keeps all of the last ten minutes, the first and the newest', () => {
    const rows = [at(4000, 1), at(9, 2), at(5, 3), ...late];
    expect(superfluous(rows, now)).toEqual([]);
  });

  it('keeps the last of ten minutes for a day, and the last of a day before', () => {
    const rows = [at(6000, 1), at(4000.9, 2), at(4000.5, 3), at(29, 4), at(28, 5), at(27, 6), ...late];
    // 2 and 3 lie on one day; 4 to 6 in one span of ten minutes (11:30 to 11:40).
    expect(superfluous(rows, now)).toEqual([2, 4, 5]);
  });

  it('keeps the newest twenty when the clock jumps by a year', () => {
    const rows = Array.from({ length: 25 }, (_, index) => at(0, index + 1));
    expect(superfluous(rows, '2027-03-02T12:00:00.000Z')).toEqual([2, 3, 4, 5]);
    expect(superfluous(rows, '2025-03-02T12:00:00.000Z')).toEqual([]);
  });
});
