// SPDX-License-Identifier: Apache-2.0
import { expect, it } from 'vitest';
import type { JobDocument } from '../../../../src/job/document';
import { dateText, placelessWords } from '../../../../src/plan/sheet/facts';
import { keyOf } from '../../../../src/plan/sheet/key';
import { shownPart } from '../../../../src/plan/sheet/shown';
import { tagsOf } from '../../../../src/plan/sheet/tags';
import type { LampReport, TransformerReport } from '../../../../src/engine/report';
import { garden } from '../../support/garden';

const job: JobDocument = {
  ...garden(),
  plan: { property_line: [[0, 0], [9, 0], [9, 9]], fixed_points: [{ id: 'p', position: [0, 0] }] },
  luminaires: [
    { id: 'F1', item: 'a', position: [1, 1, 0], azimuth_deg: 40 },
    { id: 'light-0123456789', name: 'Light 7', item: 'a', position: [2, 1, 0] },
    { id: 'F3', item: 'a' },
  ],
  transformers: [{ id: 'T1', item: 't', position: [3, 3], outputs: [] }],
  cables: [{ id: 'C1', item: 'c', from: 'F1', to: 'J1', path: [[1, 1], [2, 2]] }],
  joints: [{ id: 'J1', kind: 'hub', position: [2, 2] }, { id: 'J2', position: [4, 2] }],
};
const lamp = { id: 'F1', state: 'regulated', nominal_v: 9.94, window_min_v: 10, window_max_v: 15, worst_low_v: 9, worst_high_v: 11 } as LampReport;
const load = { id: 'T1', load_va: 105.4, rating_va: 300 } as TransformerReport;
const live = { lamps: new Map([['F1', lamp]]), transformers: new Map([['T1', load]]), findingsOf: new Map([['J2', []]]) };

it('lists what the job uses and nothing else', () => {
  expect(keyOf(job, live).map(({ words }) => words)).toEqual([
    'Light, too low', 'Light, not computed', 'Light that is aimed', 'Transformer', 'Cable', 'Splice in line', 'Hub',
    'Joint with a finding, marked !', 'Property line', 'Fixed point to measure from',
  ]);
  expect(keyOf({ ...garden(), luminaires: [] }, live)).toEqual([]);
});

it('has no line for a cable that cannot be drawn, because an end has no place', () => {
  const words = (to: string) => keyOf({ ...job, cables: [{ id: 'C1', item: 'c', from: 'F1', to }] }, live).map((entry) => entry.words);
  expect(words('F3')).not.toContain('Cable without a drawn route');
  expect(words('J1')).toContain('Cable without a drawn route');
});

it('says what has no place on the plan', () => {
  expect(placelessWords(job)).toBe('Without a place, so not on this plan: 1 light.');
  expect(placelessWords({ ...job, luminaires: [], transformers: [] })).toBe('');
  expect(placelessWords({ ...job, transformers: [{ id: 'T1', item: 't', outputs: [] }, { id: 'T2', item: 't', outputs: [] }] })).toContain('1 light, 2 transformers');
});

it('writes the month in letters', () => {
  expect(dateText(new Date(2026, 2, 4, 12))).toBe('Mar 4, 2026');
});

it('leaves hidden layers out', () => {
  const bare = shownPart(job, { shows: (id) => id === 'wire' });
  expect(keyOf(bare, live).map(({ words }) => words)).toEqual(['Cable', 'Splice in line', 'Hub', 'Joint with a finding, marked !']);
});

it('tags by a short id or by the name, with volts and load by the engine, and joints only with a finding', () => {
  const text = (detail: 'volts' | 'tags' | 'none') => tagsOf(job, live, detail).map(({ text, more }) => `${text} ${more}`.trim());
  expect(text('volts')).toEqual(['! J2', 'T1 105 of 300\u00a0VA', 'F1 9.9\u00a0V', 'Light 7']);
  expect(text('tags')).toEqual(['! J2', 'T1', 'F1', 'Light 7']);
  expect(text('none')).toEqual([]);
});
