// SPDX-License-Identifier: Apache-2.0
// Two phones write into one visit without signal: whatever happens on the way, both logs arrive whole.
import 'fake-indexeddb/auto';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Engine } from '../../../src/engine/client';
import type { Reading } from '../../../src/job/visit';
import { entriesOf } from '../../../src/job/visit-log';
import { JobSession } from '../../../src/session/job-session.svelte';
import { Database } from '../../../src/storage/database';
import { Desk } from '../../../src/storage/desk';
import { Outbox } from '../../../src/storage/outbox';
import { PictureStore } from '../../../src/storage/picture-store';
import { garden } from '../support/garden';
import { MemoryWorkspace } from '../support/memory-workspace';

// No answer is waited for here.
const engine = { check: () => new Promise(() => undefined) } as unknown as Engine;
const reading = (place: string): Reading => ({ place, quantity: 'voltage', value: 12, unit: 'V' });
let number = 0;
let workspace: MemoryWorkspace;
let open: JobSession[] = [];

async function phone(database = new Database(`field ${++number}`)): Promise<JobSession & { database: Database }> {
  const { document, revision } = await workspace.open('g');
  const session = new JobSession({ engine, workspace, desk: new Desk(database, 'memory'), pictures: new PictureStore(database, workspace), outbox: new Outbox(database, 'memory') }, { document, revision });
  open.push(session);
  return Object.assign(session, { database });
}

const places = (session: JobSession): string[] => (session.document.visits?.[0]?.readings ?? []).map((one) => one.place).sort();
const arrived = (session: JobSession): Promise<void> => vi.waitFor(() => expect([session.autosave.state, session.log.unsent]).toEqual(['saved', 0]), 5000);

beforeEach(async () => {
  workspace = new MemoryWorkspace();
  await workspace.save({ id: 'g', baseRevision: 0, saveId: 'first', document: garden() });
});

afterEach(async () => {
  workspace.mood = 'well';
  await Promise.all(open.map((session) => session.close()));
  open = [];
});

describe('the log of a visit', () => {
  it('counts what is unsent, since when, and no longer once the workspace has it', async () => {
    const one = await phone();
    workspace.mood = 'away';
    const visit = await one.log.begin({ date: '2026-03-02', kind: 'service' });
    await one.log.write(visit, { kind: 'reading', reading: reading('F1') });
    expect(one.log.unsent).toBe(2);
    expect(one.log.since).toBe(entriesOf(one.document)[0]!.at);
    workspace.mood = 'well';
    await one.autosave.flush();
    await arrived(one);
    expect(one.log.since).toBeUndefined();
  });

  it('is not touched by undo', async () => {
    const one = await phone();
    one.store.run({ label: 'Title', changes: [{ op: 'set', path: ['title'], value: 'Other' }] });
    const visit = await one.log.begin({ date: '2026-03-02', kind: 'service' });
    await one.log.write(visit, { kind: 'reading', reading: reading('F1') });
    one.store.undo();
    expect(one.document.title).not.toBe('Other');
    expect(places(one)).toEqual(['F1']);
  });

  it('of two phones without signal is joined without asking and without a loss', async () => {
    const first = await phone();
    const visit = await first.log.begin({ date: '2026-03-02', kind: 'service' });
    await first.autosave.flush();
    await arrived(first);
    const second = await phone();
    workspace.mood = 'away';
    for (const place of ['F1', 'F2', 'F3']) await first.log.write(visit, { kind: 'reading', reading: reading(place) });
    for (const place of ['F4', 'F5']) await second.log.write(visit, { kind: 'reading', reading: reading(place) });
    // The second moved a light as well: that is kept, too.
    second.store.run({ label: 'Title', changes: [{ op: 'set', path: ['title'], value: 'Renamed' }] });
    workspace.mood = 'well';
    await first.autosave.flush();
    await second.autosave.flush();
    await arrived(second);
    expect(second.autosave.conflict).toBeUndefined();
    expect(second.log.cameIn?.entries).toBe(3);
    await first.autosave.flush();
    await first.log.write(visit, { kind: 'reading', reading: reading('F6') });
    await first.autosave.flush();
    await arrived(first);
    expect(first.document.title).toBe('Renamed');
    const { document } = await workspace.open('g');
    expect(document.visits![0]!.readings!.map(({ place }) => place).sort()).toEqual(['F1', 'F2', 'F3', 'F4', 'F5', 'F6']);
    expect(document.title).toBe('Renamed');
  });

  it('asks where both sides changed more than logs, and joins the logs whichever goes on', async () => {
    const [first, second] = [await phone(), await phone()];
    await first.log.write(await first.log.begin({ date: '2026-03-02', kind: 'service' }), { kind: 'reading', reading: reading('F1') });
    first.store.run({ label: 'Title', changes: [{ op: 'set', path: ['title'], value: 'One' }] });
    await first.autosave.flush();
    await second.log.write(await second.log.begin({ date: '2026-03-03', kind: 'care' }), { kind: 'reading', reading: reading('F2') });
    second.store.run({ label: 'Title', changes: [{ op: 'set', path: ['title'], value: 'Two' }] });
    await second.autosave.flush();
    await vi.waitFor(() => expect(second.autosave.conflict).toBeDefined());
    const theirs = await workspace.open('g');
    second.takeVersion(theirs.document, 'Take the other version');
    await second.autosave.tookTheirs(theirs, true);
    await second.autosave.flush();
    await arrived(second);
    const { document } = await workspace.open('g');
    expect(document.title).toBe('One');
    expect(document.visits!.map(({ date }) => date)).toEqual(['2026-03-02', '2026-03-03']);
    expect(entriesOf(document)).toHaveLength(4);
  });

  it('survives a page that died before it could send: the next one puts it back', async () => {
    const first = await phone();
    workspace.mood = 'away';
    const visit = await first.log.begin({ date: '2026-03-02', kind: 'service' });
    await first.log.write(visit, { kind: 'reading', reading: reading('F1') });
    first.autosave.stop();
    workspace.mood = 'well';
    // The desk is lost as well: the document comes from the workspace, without the visit.
    const again = await phone(first.database);
    await vi.waitFor(() => expect(places(again)).toEqual(['F1']));
    await again.autosave.flush();
    await arrived(again);
    expect(entriesOf((await workspace.open('g')).document)).toHaveLength(2);
  });

  it('is received although the answer to the save was lost', async () => {
    const one = await phone();
    workspace.mood = 'answer lost';
    await one.log.begin({ date: '2026-03-02', kind: 'service' });
    await one.autosave.flush();
    expect(one.log.unsent).toBe(1);
    workspace.mood = 'well';
    await one.autosave.flush();
    await arrived(one);
  });

  it('hands over what another device takes in', async () => {
    const first = await phone();
    const visit = await first.log.begin({ date: '2026-03-02', kind: 'service' });
    await first.log.write(visit, { kind: 'reading', reading: reading('F1') });
    const file = JSON.stringify(await first.log.file());
    const second = await phone();
    const before = entriesOf(second.document).length;
    const came = await second.log.takeInFile(file);
    expect(before + came).toBe(2);
    expect(await second.log.takeInFile(file)).toBe(0);
    expect(places(second)).toEqual(['F1']);
  });
});
