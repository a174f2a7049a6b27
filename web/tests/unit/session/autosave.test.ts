// SPDX-License-Identifier: Apache-2.0
import 'fake-indexeddb/auto';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { JobDocument } from '../../../src/job/document';
import { emptyHistory } from '../../../src/job/history';
import { Autosave, usualDelays } from '../../../src/session/autosave.svelte';
import { Database } from '../../../src/storage/database';
import { Desk } from '../../../src/storage/desk';
import { garden } from '../support/garden';
import { MemoryWorkspace } from '../support/memory-workspace';

const quick = { desk: 1, quiet: 5, longest: 20, retry: 10 };
let number = 0;
let workspace: MemoryWorkspace;
let desk: Desk;
let source: { document: JobDocument; history: typeof emptyHistory; summary: undefined };
let autosave: Autosave;

const edit = (title: string): void => {
  source.document = { ...source.document, title };
  autosave.changed(`Title ${title}`);
};
const becomes = (state: Autosave['state']): Promise<void> => vi.waitFor(() => expect(autosave.state).toBe(state));
const stored = async (): Promise<string | undefined> => (await workspace.open('g')).document.title;

beforeEach(async () => {
  workspace = new MemoryWorkspace();
  desk = new Desk(new Database(`test ${++number}`), 'memory');
  await workspace.save({ id: 'g', baseRevision: 0, saveId: 'first', document: garden() });
  source = { document: garden(), history: emptyHistory, summary: undefined };
  autosave = new Autosave(workspace, desk, { revision: 1 }, source, quick);
});

afterEach(() => autosave.stop());

describe('autosave', () => {
  it('sends the last of several changes once the hand rests', async () => {
    edit('a');
    edit('b');
    expect(autosave.state).toBe('changed');
    await becomes('saved');
    expect(await stored()).toBe('b');
    expect(workspace.saves).toHaveLength(2);
    expect(workspace.saves[1]?.label).toBe('Title b');
    expect(autosave.revision).toBe(2);
  });

  it('begins to send within a second of rest', () => {
    expect(usualDelays.desk + usualDelays.quiet).toBeLessThan(1000);
  });

  it('does not wait for ever under a hand that never rests', async () => {
    const end = Date.now() + 80;
    while (Date.now() < end) {
      edit(String(Date.now()));
      await new Promise((resolve) => setTimeout(resolve, 2));
    }
    expect(workspace.saves.length).toBeGreaterThan(1);
  });

  it('puts a row of changes on the desk as soon when the clock is set back by an hour meanwhile', async () => {
    autosave.stop();
    autosave = new Autosave(workspace, desk, { revision: 1 }, source, { ...quick, desk: 20, quiet: 10_000, longest: 10_000 });
    edit('one');
    vi.useFakeTimers({ toFake: ['Date'], now: Date.now() - 3_600_000 });
    try {
      edit('two');
      await vi.waitFor(async () => expect((await desk.get('g'))?.document.title).toBe('two'), 2000);
    } finally {
      vi.useRealTimers();
    }
  });

  it('keeps and sends once more what the workspace has lost', async () => {
    edit('a');
    await becomes('saved');
    const saves = workspace.saves.length;
    autosave.again();
    expect(autosave.state).toBe('changed');
    await becomes('saved');
    expect(workspace.saves).toHaveLength(saves + 1);
  });

  it('notes at once what the desk lacks as the page is left, and nothing where the desk has it', async () => {
    autosave.stop();
    autosave = new Autosave(workspace, desk, { revision: 1 }, source, { ...quick, desk: 10_000, quiet: 10_000, longest: 10_000 });
    const note = vi.spyOn(desk, 'note');
    autosave.leave();
    expect(note).not.toHaveBeenCalled();
    edit('first');
    edit('last');
    autosave.leave();
    expect(note).toHaveBeenCalledTimes(1);
    expect(note.mock.calls[0]?.[0]).toMatchObject({ id: 'g', document: { title: 'last' }, unsent: { label: 'Title last' } });
    await becomes('saved');
    expect(await stored()).toBe('last');
  });

  it('puts a single change on the desk at once, and the last of a row a little later', async () => {
    autosave.stop();
    autosave = new Autosave(workspace, desk, { revision: 1 }, source, { ...quick, desk: 60, quiet: 10_000, longest: 10_000 });
    const put = vi.spyOn(desk, 'put');
    edit('first');
    expect(put).toHaveBeenCalledTimes(1);
    edit('second');
    edit('third');
    expect(put).toHaveBeenCalledTimes(1);
    await vi.waitFor(async () => expect((await desk.get('g'))?.document.title).toBe('third'));
    expect(put).toHaveBeenCalledTimes(2);
  });

  it('keeps on the desk what the workspace does not take, and sends it later', async () => {
    workspace.mood = 'away';
    edit('kept');
    await becomes('kept');
    expect((await desk.get('g'))?.document.title).toBe('kept');
    expect((await desk.get('g'))?.unsent).not.toBeNull();
    workspace.mood = 'well';
    await becomes('saved');
    expect(await stored()).toBe('kept');
    await vi.waitFor(async () => expect((await desk.get('g'))?.unsent).toBeNull());
  });

  it('takes no lost answer for a stranger, even where the document went on changing', async () => {
    workspace.mood = 'answer lost';
    edit('one');
    await becomes('kept');
    workspace.mood = 'well';
    edit('two');
    await becomes('saved');
    expect(autosave.conflict).toBeUndefined();
    expect(await stored()).toBe('two');
  });

  it('goes on after a restart with what an earlier page tried to send', async () => {
    workspace.mood = 'answer lost';
    edit('one');
    await becomes('kept');
    autosave.stop();
    workspace.mood = 'well';
    const row = (await desk.get('g'))!;
    source.document = row.document;
    autosave = new Autosave(workspace, desk, row, source, quick);
    autosave.resume(row.unsent!);
    edit('after');
    await becomes('saved');
    expect(await stored()).toBe('after');
  });

  it('names a conflict and stores nothing until the person has decided', async () => {
    await workspace.save({ id: 'g', baseRevision: 1, saveId: 'theirs', document: garden('theirs') });
    edit('mine');
    await becomes('conflict');
    expect(autosave.conflict?.theirRevision).toBe(2);
    edit('mine still');
    await autosave.flush();
    expect(await stored()).toBe('theirs');
    await autosave.keepMine();
    expect(autosave.state).toBe('saved');
    expect(await stored()).toBe('mine still');
    expect(autosave.revision).toBe(3);
  });

  it('takes the other side where the person decided so', async () => {
    await workspace.save({ id: 'g', baseRevision: 1, saveId: 'theirs', document: garden('theirs') });
    edit('mine');
    await becomes('conflict');
    source.document = garden('theirs');
    await autosave.tookTheirs({ revision: 2 });
    expect(autosave.state).toBe('saved');
    edit('on from theirs');
    await becomes('saved');
    expect(autosave.revision).toBe(3);
  });

  it('overwrites nothing after a backup was put back, though its number is there again', async () => {
    const putBack = workspace.backUp();
    edit('lost');
    await becomes('saved');
    putBack();
    await workspace.save({ id: 'g', baseRevision: 1, saveId: 'theirs', document: garden('after the restore') });
    edit('mine');
    await becomes('conflict');
    expect(autosave.conflict).toMatchObject({ theirRevision: 2, putBack: true });
    expect(await stored()).toBe('after the restore');
    expect((await desk.get('g'))?.document.title).toBe('mine');
    await autosave.keepMine();
    expect(autosave.state).toBe('saved');
    expect(await stored()).toBe('mine');
    expect((await workspace.openRevision('g', 2)).document.title).toBe('after the restore');
  });

  it('goes on by itself after a backup was put back that holds what it grew from', async () => {
    edit('kept');
    await becomes('saved');
    workspace.backUp()();
    edit('on');
    await becomes('saved');
    expect(autosave.conflict).toBeUndefined();
    expect(await stored()).toBe('on');
  });

  it('makes a job again that the workspace lost', async () => {
    edit('one');
    await becomes('saved');
    workspace.lose();
    edit('two');
    await becomes('saved');
    expect(await stored()).toBe('two');
    expect([autosave.putBack, autosave.revision]).toEqual([true, 1]);
  });

  it('says so where there is no room, and does not call it saved', async () => {
    workspace.mood = 'full';
    edit('big');
    await becomes('kept');
    expect(autosave.message).toBe('No room.');
  });
});
