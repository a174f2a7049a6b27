// SPDX-License-Identifier: Apache-2.0
// What is said of an outcome, row by row and in a sentence, and which things a run has.
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { JobDocument } from '../../../src/job/document';
import { figureRows } from '../../../src/planning/figures';
import { thingsToPin } from '../../../src/planning/pins';
import { runParts } from '../../../src/planning/run-parts';
import { boundWords, nameIn, progressSentence, verdictOf } from '../../../src/planning/words';
import { answerOf, figures, progressOf } from '../support/fake-planner';

const ostrey = JSON.parse(readFileSync('../examples/ostrey-garden.json', 'utf8')) as JobDocument;
const means = { units: 'metric' as const, currency: 'USD', name: (id: string) => `lamp ${id}` };
const plain = (text: string): string => text.replaceAll('\u00a0', ' ');

describe('the figures', () => {
  const row = (title: string, today: Parameters<typeof figures>[0], planned: Parameters<typeof figures>[0]) => {
    const found = figureRows(figures(today), figures(planned), means).find((one) => one.title.startsWith(title))!;
    return { today: plain(found.today.text), planned: plain(found.planned.text), change: plain(found.change), better: found.better };
  };

  it('calls less cost, trench, cable, joints, types and errors better', () => {
    for (const [title, key] of [['Installed cost', 'cost_minor'], ['Trench', 'trench_m'], ['Cable,', 'cable_m'], ['Joints', 'joints'], ['Cable types', 'cable_types']] as const) {
      expect(row(title, { cost: { [key]: 40 } }, { cost: { [key]: 30 } }).better, title).toBe('planned');
      expect(row(title, { cost: { [key]: 30 } }, { cost: { [key]: 40 } }).better, title).toBe('today');
    }
    expect(row('Errors', { errors: 3 }, {})).toEqual({ today: '3', planned: '0', change: '3 less', better: 'planned' });
  });

  it('calls more room and more margin better', () => {
    expect(row('Least room', { least_room_v: -0.24 }, { least_room_v: 0.1 })).toEqual({ today: '-0.24 V', planned: '0.10 V', change: '0.34 V more', better: 'planned' });
    expect(row('All loads', { load_margin: 1.7 }, { load_margin: 1.4 }).better).toBe('today');
  });

  it('says the difference in the job’s units and money, and the same where both read the same', () => {
    expect(row('Installed cost', { cost: { cost_minor: 123456 } }, { cost: { cost_minor: 100000.4 } })).toEqual({ today: 'USD 1,234.56', planned: 'USD 1,000.00', change: 'USD 234.56 less', better: 'planned' });
    expect(row('Trench', { cost: { trench_m: 50.01 } }, { cost: { trench_m: 50.04 } })).toMatchObject({ change: 'the same', better: 'same' });
    const us = figureRows(figures(), figures({ cost: { trench_m: 50 } }), { ...means, units: 'us' }).find(({ title }) => title.startsWith('Trench'))!;
    expect(plain(us.planned.text)).toBe('164 ft');
  });

  it('judges neither volts alone nor the size of transformers', () => {
    expect(row('Lowest volts', { lowest_v: 9.8 }, { lowest_v: 10.4 })).toMatchObject({ change: '0.60 V more', better: 'unsaid' });
    expect(row('Transformers', { rating_va: 300 }, { rating_va: 600 }).better).toBe('unsaid');
  });

  it('does not compare the cost of a garden that is not wired, and shows a dash for what was not computed', () => {
    expect(row('Installed cost', { wired: false }, { cost: { cost_minor: 1 } })).toMatchObject({ change: '', better: 'unsaid' });
    expect(row('All loads', { load_margin: null as unknown as number }, {})).toMatchObject({ today: '–', better: 'unsaid' });
  });
});

describe('the verdict', () => {
  const verdict = (today: Parameters<typeof figures>[0], planned: Parameters<typeof figures>[0]) => {
    const { words, kind } = verdictOf(answerOf(ostrey, { today: figures(today), planned: figures(planned) }), 'USD');
    return [kind, plain(words)];
  };

  it('says what is saved and which errors are gone', () => {
    expect(verdict({ errors: 3 }, { cost: { cost_minor: 900_000 } })).toEqual(['gain', 'The planned wiring costs USD 1,000.00 less to put in (10.0 %), and 3 errors are gone.']);
    expect(verdict({}, { cost: { cost_minor: 900_000 } })).toEqual(['gain', 'The planned wiring costs USD 1,000.00 less to put in (10.0 %).']);
    expect(verdict({ errors: 1 }, { cost: { cost_minor: 1_050_000 } })).toEqual(['gain', '1 error is gone. The planned wiring costs USD 500.00 more to put in (5.0 %).']);
  });

  it('does not praise what is no gain', () => {
    expect(verdict({}, {})[0]).toBe('level');
    expect(verdict({}, { cost: { cost_minor: 1_000_100 } })).toEqual(['level', 'Nothing cheaper was found: the planned wiring costs USD 1.00 more than today’s.']);
    expect(verdict({ wired: false }, {})[1]).toContain('cannot be compared');
  });

  it('says that nothing sound was found', () => {
    expect(verdictOf(answerOf(null), 'USD').kind).toBe('none');
    expect(verdictOf(answerOf(null, { obstacles: [{ subject: '', message: 'm', cure: '' }] }), 'USD').words).toContain('stands in the way');
  });

  it('says how far a plan may be from the cheapest, where that is known', () => {
    expect(plain(boundWords(answerOf(ostrey, { bound_minor: 800_000 }), 'USD')!)).toBe('No wiring on the same ways can cost less than USD 8,000.00. The planned one is at most 25.0 % above that.');
    expect(boundWords(answerOf(ostrey), 'USD')).toBeUndefined();
    expect(boundWords(answerOf(null, { bound_minor: 1 }), 'USD')).toBeUndefined();
  });

  it('tells the progress before and after a first wiring', () => {
    expect(plain(progressSentence(progressOf(0, { lamps_placed: 12 }), undefined, 'USD', 'metric'))).toBe('Searching. 12 of 40 lamps placed, no sound wiring yet.');
    expect(plain(progressSentence(progressOf(100_000), 123_456, 'USD', 'us'))).toBe('Best so far USD 1,234.56, 328 ft of trench, 30 joints.');
  });
});

describe('the things of a run', () => {
  it('are all that hangs on its cable; two runs share all of a ring, or nothing', () => {
    const outputs = new Set(ostrey.transformers!.flatMap((transformer) => transformer.outputs.map(({ id }) => id)));
    const first = ostrey.cables!.filter(({ from, to }) => outputs.has(from) || outputs.has(to));
    const runs = first.map(({ id }) => new Set(runParts(ostrey, id).map((ref) => `${ref.kind}/${ref.id}`)));
    const all = new Set(runs.flatMap((run) => [...run]));
    for (const [kind, list] of [['luminaire', ostrey.luminaires!], ['cable', ostrey.cables!], ['joint', ostrey.joints!]] as const) {
      expect(list.filter(({ id }) => !all.has(`${kind}/${id}`)), kind).toEqual([]);
    }
    let rings = 0;
    runs.forEach((run, index) => {
      for (const other of runs.slice(index + 1)) {
        const shared = [...run].filter((part) => other.has(part)).length;
        expect([0, run.size]).toContain(shared);
        if (shared > 0) rings += 1;
      }
    });
    expect(first.length).toBeGreaterThan(3);
    expect(rings).toBe(1);
  });

  it('of a cable that is not there are none', () => {
    expect(runParts(ostrey, 'no-such-cable')).toEqual([]);
  });
});

it('offers transformers, cables and lights to be held, by name', () => {
  const things = thingsToPin(ostrey);
  expect(things).toHaveLength(2 + 43 + 40);
  expect(things[0]).toEqual({ value: 'transformer/T1', label: 'Transformer T1, Front, by the garage' });
  expect(nameIn(ostrey, 'F5')).toBe('Pond, far bank (F5)');
  expect(nameIn(ostrey, 'nobody')).toBe('nobody');
});
