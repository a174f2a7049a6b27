// SPDX-License-Identifier: Apache-2.0
// What is held fast, and the request that comes of it.
import { expect, it } from 'vitest';
import type { JobDocument } from '../../../src/job/document';
import { labourOf, noPins, noWishes, pinsIn, requestOf, toggledPin } from '../../../src/session/wishes';
import { garden } from '../support/garden';

const job: JobDocument = {
  ...garden(),
  cables: [{ id: 'C1', item: 'x', from: 'T1-A', to: 'F1' }],
  transformers: [{ id: 'T1', item: 't', outputs: [{ id: 'T1-A', tap_v: 12 }] }],
};

it('holds a thing once and lets it go again', () => {
  const held = toggledPin(noPins, 'kept_cables', 'C1');
  expect(held).toEqual({ ...noPins, kept_cables: ['C1'] });
  expect(toggledPin(held, 'kept_cables', 'C1')).toEqual(noPins);
});

it('forgets what the job has no more, kind by kind', () => {
  const pins = { kept_cables: ['C1', 'gone'], forbidden_trenches: ['F1'], own_outputs: ['F1', 'C1'], kept_transformers: ['T1', 'T9'] };
  expect(pinsIn(job, pins)).toEqual({ kept_cables: ['C1'], forbidden_trenches: [], own_outputs: ['F1'], kept_transformers: ['T1'] });
});

it('asks for nothing special where nothing is wished', () => {
  expect(requestOf(job, noWishes)).toEqual({
    pins: noPins, no_hub: false, splice_every_lead: false, reserve_pct: 0, most_cable_types: 0, rates: { labour_minor_per_h: 4000 },
  });
});

it('passes every wish on', () => {
  const wishes = { ...noWishes, pins: toggledPin(noPins, 'own_outputs', 'F1'), noHub: true, spliceEveryLead: true, reservePct: 20, mostCableTypes: 2, labourMinorPerH: 5500 };
  expect(requestOf(job, wishes)).toEqual({
    pins: { ...noPins, own_outputs: ['F1'] }, no_hub: true, splice_every_lead: true, reserve_pct: 20, most_cable_types: 2, rates: { labour_minor_per_h: 5500 },
  });
});

it('takes the hour from the offer where it says so', () => {
  expect(labourOf({ ...job, offer: { rates: { labour_cost_minor_per_h: 6200 } } })).toBe(6200);
  expect(labourOf({ ...job, offer: { rates: {} } })).toBe(4000);
  expect(labourOf(job)).toBe(4000);
});
