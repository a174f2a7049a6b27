// SPDX-License-Identifier: Apache-2.0
import 'fake-indexeddb/auto';
import { beforeEach, describe, expect, it } from 'vitest';
import type { App } from '../../../src/session/app.svelte';
import { addJob, loadJobs, sendWaiting } from '../../../src/session/job-list';
import { hasLost, startingPoint } from '../../../src/session/open-job';
import { Database } from '../../../src/storage/database';
import { Desk } from '../../../src/storage/desk';
import { garden } from '../support/garden';
import { MemoryWorkspace } from '../support/memory-workspace';

let number = 0;
let workspace: MemoryWorkspace;
let app: App;

beforeEach(() => {
  workspace = new MemoryWorkspace();
  app = { workspace, desk: new Desk(new Database(`list ${++number}`), 'memory') } as unknown as App;
});

describe('the list of jobs', () => {
  it('shows the last known list and the new job while the workspace is away, and sends it later', async () => {
    await addJob(app, garden('first', 'a'), 'New job');
    await loadJobs(app);
    workspace.mood = 'away';
    await addJob(app, garden('second', 'b'), 'New job');
    const away = await loadJobs(app);
    expect(away.stale?.why).toBe('Away.');
    expect(new Set(away.entries.map(({ title }) => title))).toEqual(new Set(['first', 'second']));
    expect([...away.unsent]).toEqual(['b']);
    expect(await sendWaiting(app)).toBe(0);
    workspace.mood = 'well';
    expect(await sendWaiting(app)).toBe(1);
    const back = await loadJobs(app);
    expect(back.unsent.size).toBe(0);
    expect(back.entries.map(({ id, revision }) => [id, revision]).sort()).toEqual([['a', 1], ['b', 1]]);
  });

  it('sends a job once though the first answer was lost', async () => {
    workspace.mood = 'answer lost';
    await addJob(app, garden('lost', 'a'), 'New job');
    expect(await sendWaiting(app)).toBe(0);
    workspace.mood = 'well';
    expect(await sendWaiting(app)).toBe(1);
    expect((await workspace.open('a')).document.title).toBe('lost');
  });

  it('leaves a job that someone else saved meanwhile to the person who opens it', async () => {
    await workspace.save({ id: 'a', baseRevision: 0, saveId: 'x', document: garden('theirs', 'a') });
    await app.desk.put({ id: 'a', revision: 0, document: garden('mine', 'a'), history: { entries: [], position: 0 }, unsent: { label: '', since: '2026', tried: [] } });
    expect(await sendWaiting(app)).toBe(0);
    expect((await workspace.open('a')).document.title).toBe('theirs');
    expect((await app.desk.get('a'))?.document.title).toBe('mine');
  });
});

describe('after a backup was put back', () => {
  const row = { workspace: 'memory', id: 'a', revision: 2, checksum: JSON.stringify(garden('lost', 'a')), document: garden('lost', 'a'), history: { entries: [], position: 0 }, unsent: null };
  const save = (baseRevision: number, title: string) => workspace.save({ id: 'a', baseRevision, saveId: title, document: garden(title, 'a') });
  const isLost = async (): Promise<boolean> => hasLost(app, await workspace.open('a'), row);

  it('what only this device has still is sent, and both sides are there', async () => {
    await save(0, 'of the backup');
    expect(await isLost(), 'the workspace is behind').toBe(true);
    await save(1, 'after it');
    expect(await isLost(), 'another one of the same number').toBe(true);
    await save(2, 'and on');
    expect(await isLost(), 'overtaken since').toBe(true);
    const opening = startingPoint(await workspace.open('a'), row, true);
    expect(opening).toMatchObject({ document: { title: 'lost' }, revision: 2, checksum: row.checksum });
    expect(opening.unsent?.label).toContain('put back');
  });

  it('nothing is made of a revision that the workspace has, or once had from here', async () => {
    await save(0, 'first');
    await save(1, 'lost');
    expect(await isLost(), 'as it is here').toBe(false);
    await save(2, 'someone else went on');
    expect(await isLost()).toBe(false);
  });

  it('a job that the workspace lost is made again from what waits here, and one that it has is left to the person', async () => {
    const unsent = { label: '', since: '2026', tried: [] };
    await app.desk.put({ ...row, unsent });
    expect(await sendWaiting(app)).toBe(1);
    expect((await workspace.open('a')).revision).toBe(1);
    await save(1, 'theirs');
    await app.desk.put({ ...row, document: garden('mine', 'a'), unsent });
    expect(await sendWaiting(app)).toBe(0);
    expect((await workspace.open('a')).document.title).toBe('theirs');
  });
});

describe('opening', () => {
  const history = { entries: [{ label: 'x', forward: [], backward: [] }], position: 1 };
  const opened = { id: 'g', revision: 4, changed: '', document: garden('stored') };
  const row = { workspace: 'memory', id: 'g', revision: 4, document: garden('desk'), history, unsent: null };

  it('takes up the undo history that belongs to the stored revision', () => {
    expect(startingPoint(opened, row)).toEqual({ document: garden('stored'), revision: 4, history });
  });

  it('drops a history that belongs to another revision', () => {
    expect(startingPoint({ ...opened, revision: 5 }, row)).toEqual({ document: garden('stored'), revision: 5 });
  });

  it('goes on with unsent work, from the revision that it grew from', () => {
    const unsent = { label: 'x', since: '2026', tried: ['s'] };
    expect(startingPoint({ ...opened, revision: 9 }, { ...row, unsent })).toEqual({ document: garden('desk'), revision: 4, history, unsent });
  });
});
