// SPDX-License-Identifier: Apache-2.0
// What is noted as a page is left: taken over by the next page, and of no use once newer work is stored.
import 'fake-indexeddb/auto';
import { beforeEach, expect, test, vi } from 'vitest';
import { emptyHistory } from '../../../src/job/history';
import { Database } from '../../../src/storage/database';
import { Desk } from '../../../src/storage/desk';
import { LeavingNotes } from '../../../src/storage/leaving-note';
import { garden } from '../support/garden';

const unsent = { label: 'Title', since: '2031-05-20T10:00:00.000Z', tried: [] };
const row = (title: string, revision = 1) => ({ id: 'g', revision, document: { ...garden(), title }, history: emptyHistory, unsent });

class MemoryStorage implements Storage {
  [name: string]: unknown;
  #texts = new Map<string, string>();
  get length() { return this.#texts.size; }
  key(index: number) { return [...this.#texts.keys()][index] ?? null; }
  getItem(key: string) { return this.#texts.get(key) ?? null; }
  setItem(key: string, text: string) { this.#texts.set(key, text); }
  removeItem(key: string) { this.#texts.delete(key); }
  clear() { this.#texts.clear(); }
}

let number = 0;
let storage: MemoryStorage;
let database: Database;
const page = (): Desk => new Desk(database, 'memory', new LeavingNotes('memory', storage));
const titleOn = async (desk: Desk): Promise<string | undefined> => (await desk.get('g'))?.document.title;

beforeEach(() => {
  storage = new MemoryStorage();
  database = new Database(`desk ${++number}`);
});

test('what was noted as a page was left is on the desk of the next one, in the list of what is unsent, and then no note any more', async () => {
  const left = page();
  await left.put(row('first'));
  left.note(row('last'));
  const next = page();
  expect((await next.unsent()).map(({ document }) => document.title)).toEqual(['last']);
  expect(await titleOn(next)).toBe('last');
  expect(storage.length).toBe(0);
});

test('a save that was under way as the note was written leaves it, the next one makes it needless', async () => {
  const desk = page();
  const underWay = desk.put(row('first'));
  desk.note(row('last'));
  await underWay;
  expect(storage.length).toBe(1);
  await desk.put(row('last'));
  expect(storage.length).toBe(0);
});

test('a note from before a later revision changes nothing', async () => {
  page().note(row('left behind', 1));
  await new Desk(database, 'memory', new LeavingNotes('memory', new MemoryStorage())).put(row('gone on', 2));
  expect(await titleOn(page())).toBe('gone on');
  expect(storage.length).toBe(0);
});

test('a note of another workspace is left to it', async () => {
  new Desk(database, 'other', new LeavingNotes('other', storage)).note(row('elsewhere'));
  expect(await titleOn(page())).toBeUndefined();
  expect(storage.length).toBe(1);
});

test('a note stays where the database does not take it, and one that cannot be read is dropped', async () => {
  page().note(row('last'));
  const next = page();
  const run = vi.spyOn(database, 'run').mockRejectedValueOnce(new Error('The disk is full.'));
  await next.get('g');
  expect(storage.length).toBe(1);
  run.mockRestore();
  expect(await titleOn(next)).toBe('last');
  storage.setItem('duskwire-left/memory/g', '{"broken');
  expect(await titleOn(page())).toBe('last');
  expect(storage.length).toBe(0);
});

test('without room for a note, or without such storage, the desk works as before', async () => {
  storage.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); };
  for (const desk of [page(), new Desk(database, 'memory', new LeavingNotes('memory', undefined))]) {
    desk.note(row('not noted'));
    await desk.put(row('stored'));
    expect(await titleOn(desk)).toBe('stored');
  }
});
