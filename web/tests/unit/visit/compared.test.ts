// SPDX-License-Identifier: Apache-2.0
import { describe, expect, it } from 'vitest';
import type { ComparedReading, NextToRead } from '../../../src/engine/locate';
import type { JobDocument } from '../../../src/job/document';
import type { Reading } from '../../../src/job/visit';
import type { ReadingEntry } from '../../../src/job/visit-log';
import { judged } from '../../../src/visit/compared';
import { askedFor, kindOf, placesFor, readingOf } from '../../../src/visit/reading-kinds';
import { percent, withSign, withUnit } from '../../../src/visit/words';
import { garden } from '../support/garden';

const entry = (id: string, reading: Reading): ReadingEntry => ({ kind: 'reading', reading, id, visit: 'v', device: 'd', number: 1, at: '2026-03-02T20:00:00Z' });
const compared = (place: string, measured: number, more: Partial<ComparedReading> = {}): ComparedReading => ({ place, quantity: 'voltage', unit: 'V', measured, predicted: 12, difference: measured - 12, tolerance: 0.1, explained: 12, in_tolerance: Math.abs(measured - 12) < 0.1, read_again: false, ...more });
const volts = (place: string, value: number): Reading => ({ place, quantity: 'voltage', value, unit: 'V' });

describe('readings beside the plan', () => {
  it('finds each comparison again, also of one place that was read twice', () => {
    const verdicts = judged([entry('1', volts('F1', 11)), entry('2', volts('F1', 12)), entry('3', volts('F9', 12))], {
      compared: [compared('F1', 11), compared('F1', 12)], unused: [{ place: 'F9', quantity: 'voltage', why: 'the job has nothing of this id' }],
    });
    expect([...verdicts.values()].map(({ state }) => state)).toEqual(['off', 'sound', 'unused']);
  });

  it('says which is to be read again', () => {
    expect(judged([entry('1', volts('F1', 3))], { compared: [compared('F1', 3, { read_again: true })], unused: [] }).get('1')?.state).toBe('again');
  });

  it('takes what was seen as taken into account', () => {
    expect(judged([entry('1', { place: 'F1', quantity: 'lamp_state', seen: 'dark' })], { compared: [], unused: [] }).get('1')?.state).toBe('seen');
  });
});

describe('kinds of reading', () => {
  const job: JobDocument = { ...garden(), luminaires: [{ id: 'F1', item: 'x', name: 'Oak' }], joints: [{ id: 'S1' }], transformers: [{ id: 'T', item: 't', outputs: [{ id: 'T-A', tap_v: 13 }] }], cables: [{ id: 'C1', item: 'c', from: 'T-A', to: 'S1', length_m: 3 }] };
  const next = (place: string, reads: NextToRead['reads'], more: Partial<NextToRead> = {}): NextToRead => ({ place, quantity: '', text: '', reads, load: 'loaded', clamped: 'one', at: '', lifted: '', information_bit: 1, effort_min: 1, outcomes: [], cautions: [], ...more });

  it.each([
    ['output_v', 'T-A'], ['lamp_v', 'F1'], ['joint_v', 'S1'], ['cable_a', 'C1'], ['mains_v', 'T'], ['breaker', 'T-A'],
  ] as const)('%s is taken at %s', (kind, place) => {
    expect(placesFor(job, kindOf(kind)).map(({ id }) => id)).toEqual([place]);
  });

  it('writes what the format of a job asks for', () => {
    const wanted = { place: 'C1', clamped: 'net', at: 'S1', lifted: 'C1' } as const;
    expect(readingOf({ ...wanted, kind: 'cable_a' }, 0.64, '20:15')).toEqual({ place: 'C1', quantity: 'current', value: 0.64, unit: 'A', clamped: 'net', lifted: 'C1', time: '20:15' });
    expect(readingOf({ ...wanted, kind: 'end_v', lifted: '' }, 12.7, '20:15')).toEqual({ place: 'C1', quantity: 'voltage', value: 12.7, unit: 'V', at: 'S1', time: '20:15' });
    expect(readingOf({ ...wanted, kind: 'open_v', place: 'T-A', lifted: '' }, 13.1, '20:15')).toMatchObject({ load: 'open_circuit' });
    expect(readingOf({ ...wanted, kind: 'lamp_seen', place: 'F1', lifted: '' }, 'dark', '20:15')).toEqual({ place: 'F1', quantity: 'lamp_state', seen: 'dark', time: '20:15' });
  });

  it.each([
    [next('F1', 'voltage'), 'lamp_v'],
    [next('S1', 'voltage'), 'joint_v'],
    [next('C1', 'voltage', { at: 'S1' }), 'end_v'],
    [next('T-A', 'voltage'), 'output_v'],
    [next('T-A', 'voltage', { load: 'open_circuit' }), 'open_v'],
    [next('T-A', 'current'), 'output_a'],
    [next('C1', 'current', { clamped: 'other' }), 'cable_a'],
    [next('C1', 'current', { clamped: 'net', lifted: 'C1' }), 'cable_a'],
    [next('T', 'mains_voltage'), 'mains_v'],
    [next('T', 'mains_current'), 'mains_a'],
    [next('S1', 'resistance'), 'ohm'],
    [next('', 'lamp_state'), 'lamp_seen'],
    [next('T-A', 'breaker'), 'breaker'],
  ] as const)('sets up what is asked for: $reads at $place', (asked, kind) => {
    const { place, clamped, at, lifted } = asked;
    expect(askedFor(job, asked)).toEqual({ kind, place, clamped, at, lifted });
  });
});

describe('numbers of a visit', () => {
  it('have their unit, and a sign where they differ', () => {
    expect(withUnit(0.346, 'ohm')).toBe('0.35 Ω');
    expect(withSign(-0.617, 'V')).toBe('−0.62 V');
    expect(percent(0.429)).toBe('43 %');
    expect(percent(0.001)).toBe('under 1 %');
    expect(percent(1)).toBe('above 99 %');
  });
});
