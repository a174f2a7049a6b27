// SPDX-License-Identifier: Apache-2.0
import { describe, expect, it } from 'vitest';
import { addEntry, setBase, setInEntry, setMoment, setSeason, toggleDay, toggleMember } from '../../../src/job/edits/programme';
import type { ProgrammeEntry } from '../../../src/job/programme';
import { JobStore } from '../../../src/job/store.svelte';
import { garden } from '../support/garden';

function storeOf(entry: Partial<ProgrammeEntry> = {}) {
  const store = new JobStore({ ...garden(), programme: [{ id: 'e', on: { at: 'sunset', offset_min: 15 }, off: { at: 'clock', time: '23:00' }, ...entry }] });
  return { store, entry: () => store.document.programme![0]! };
}

describe('editing the programme', () => {
  it('begins with an evening, and numbers what follows', () => {
    const store = new JobStore(garden());
    store.run(addEntry(store.document).command);
    store.run(addEntry(store.document).command);
    expect(store.document.programme!.map(({ name }) => name)).toEqual(['Every evening', 'Entry 1']);
    expect(store.document.programme![0]).toMatchObject({ on: { at: 'sunset', offset_min: 15 }, off: { at: 'clock', time: '23:00' } });
    store.undo();
    store.undo();
    expect(store.document.programme).toBeUndefined();
  });

  it('gives a moment by the clock a time and no offset, and the other way round', () => {
    const { store, entry } = storeOf();
    store.run(setBase(entry(), 'on', 'clock'));
    expect(entry().on).toEqual({ at: 'clock', time: '19:00' });
    store.run(setMoment(entry(), 'on', { time: '20:30' }));
    store.run(setBase(entry(), 'on', 'sunrise'));
    expect(entry().on).toEqual({ at: 'sunrise', offset_min: 0 });
    store.undo();
    expect(entry().on).toEqual({ at: 'clock', time: '20:30' });
  });

  it('takes days out of every day, and all seven are every day', () => {
    const { store, entry } = storeOf();
    store.run(toggleDay(entry(), 'sun'));
    expect(entry().days).toEqual(['mon', 'tue', 'wed', 'thu', 'fri', 'sat']);
    store.run(toggleDay(entry(), 'sun'));
    expect(entry().days).toBeUndefined();
  });

  it('sets both ends of a season in one step', () => {
    const { store, entry } = storeOf();
    store.run(setSeason(entry(), { from: '12-18', to: '01-06' }));
    expect(entry()).toMatchObject({ from_day: '12-18', to_day: '01-06' });
    store.undo();
    expect(Object.keys(entry())).toEqual(['id', 'on', 'off']);
  });

  it('names zones, and none named is all of them', () => {
    const { store, entry } = storeOf();
    store.run(toggleMember(entry(), 'zones', 'pond', true));
    expect(entry().zones).toEqual(['pond']);
    store.run(toggleMember(entry(), 'zones', 'pond', false));
    expect(entry().zones).toBeUndefined();
    store.run(setInEntry(entry(), 'Name', 'name', 'Late'));
    expect(store.undoLabel).toBe('Name of e');
  });
});
