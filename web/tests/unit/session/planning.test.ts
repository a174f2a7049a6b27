// SPDX-License-Identifier: Apache-2.0
// The planning of an open job over a planner that follows a script: progress, stop, accept, and what may go wrong.
import { readFileSync } from 'node:fs';
import { beforeEach, describe, expect, it } from 'vitest';
import type { Engine } from '../../../src/engine/client';
import type { JobDocument } from '../../../src/job/document';
import { JobStore } from '../../../src/job/store.svelte';
import { Planning } from '../../../src/session/planning.svelte';
import { answerOf, FakePlanner, figures } from '../support/fake-planner';

const read = (name: string): JobDocument => JSON.parse(readFileSync(`../examples/${name}.json`, 'utf8')) as JobDocument;
const today = read('ostrey-garden');
const planned: JobDocument = { ...read('ostrey-garden-sound'), id: today.id, title: today.title! };

let store: JobStore;
let planner: FakePlanner;
let planning: Planning;
let checked: string[];

// The two calls that planning makes of the engine, as the real one answers them for a document in its own spelling.
const copied = (document: JobDocument): Promise<JobDocument> => Promise.resolve(structuredClone(document));
const engine = {
  applyChanges: copied,
  check: (document: JobDocument) => {
    checked.push(document.id);
    return Promise.resolve({ value: { problems: [], report: { lamps: [{ id: 'F5' }], findings: [], transformers: [] } }, milliseconds: 1 });
  },
} as unknown as Engine;

beforeEach(() => {
  engine.applyChanges = copied;
  store = new JobStore(today);
  planner = new FakePlanner();
  planner.costs = [0, 9_000, 8_000];
  planner.best = () => answerOf(planned);
  checked = [];
  planning = new Planning(
    { engine, store, get document() { return store.document; } },
    planner,
    (_progress, best) => `best ${best}`,
    () => planner.now,
  );
  planning.wishes = { ...planning.wishes, seconds: 2 };
});

describe('planning', () => {
  it('searches to its time, keeps each better cost, and has the planned lamps checked', async () => {
    await planning.start();
    expect(planning.phase).toBe('done');
    expect(planning.milliseconds).toBe(2000);
    expect(planning.trace.map(({ costMinor }) => costMinor)).toEqual([9_000, 8_000]);
    expect(planning.acceptable).toBe(true);
    await Promise.resolve();
    expect(planning.lamps.has('F5')).toBe(true);
    expect(checked).toHaveLength(2);
    expect(store.document).toBe(today);
  });

  it('counts the best so far in whole costs: what the search leaves out comes from the last look', async () => {
    const seen: (number | undefined)[] = [];
    planner.costs = [9_000, 8_000];
    planner.onslice = () => seen.push(planning.bestMinor);
    planner.best = () => answerOf(planned, { planned: figures({ cost: { cost_minor: 9_000 + 500_000 } }) });
    await planning.start();
    expect(seen.slice(0, 3)).toEqual([undefined, 509_000, 508_000]);
    expect(planning.bestMinor).toBe(509_000);
  });

  it('speaks at most each two seconds', async () => {
    planning.wishes = { ...planning.wishes, seconds: 10 };
    let words = '';
    let changes = 0;
    let found = 0;
    planner.costs = Array.from({ length: 90 }, (_, slice) => 90_000 - slice);
    planner.best = () => answerOf(planned, { planned: figures({ cost: { cost_minor: planner.costs[found]! } }) });
    planner.onslice = (slice) => {
      found = slice;
      if (planning.spoken !== words) changes += 1;
      words = planning.spoken;
    };
    await planning.start();
    expect(changes).toBeGreaterThanOrEqual(4);
    expect(changes).toBeLessThanOrEqual(6);
  });

  it('is stopped with the best so far', async () => {
    planner.onslice = (slice) => slice === 2 && planning.stop();
    await planning.start();
    expect(planner.calls.filter((call) => call.startsWith('search'))).toHaveLength(3);
    expect(planning.phase).toBe('done');
    expect(planning.acceptable).toBe(true);
    expect(planning.stopping).toBe(false);
  });

  it('accepts the plan as one step of undo that brings today’s back', async () => {
    await planning.start();
    expect(planning.planned).toEqual(planned);
    planning.accept();
    expect(store.document).toEqual(planned);
    expect(store.history.entries).toHaveLength(1);
    expect(store.undo()).toBe('Planned wiring');
    expect(store.document).toEqual(today);
    store.redo();
    expect(store.document).toEqual(planned);
    expect(planning.phase).toBe('waiting');
    expect(planner.calls.at(-1)).toBe('end');
  });

  it('shows and takes only what the plan changes, however the engine spells the rest', async () => {
    const spelled = (job: JobDocument): JobDocument => ({ ...job, luminaires: job.luminaires!.map((lamp) => ({ azimuth_deg: 0, ...lamp })) });
    engine.applyChanges = (document) => Promise.resolve(spelled(document));
    planner.best = () => answerOf(spelled(planned));
    await planning.start();
    expect(planning.planned).toEqual(planned);
    planning.accept();
    expect(store.document).toEqual(planned);
  });

  it('does not accept a plan of a job that has changed, but does once the change is undone', async () => {
    await planning.start();
    store.run({ label: 'Title', changes: [{ op: 'set', path: ['title'], value: 'Other' }] });
    expect(planning.stale).toBe(true);
    planning.accept();
    expect(store.document.title).toBe('Other');
    store.undo();
    expect(planning.stale).toBe(false);
    planning.accept();
    expect(store.document).toEqual(planned);
  });

  it('has nothing to accept where no sound wiring was found', async () => {
    planner.best = () => answerOf(null, { obstacles: [{ subject: 'F5', message: 'Too far.', cure: 'Nearer.' }] });
    await planning.start();
    expect(planning.phase).toBe('done');
    expect(planning.acceptable).toBe(false);
    expect(planning.answer?.obstacles).toHaveLength(1);
  });

  it('tells of a planner that died, and can be asked again', async () => {
    planner.failure = new Error('The worker is gone.');
    await planning.start();
    expect(planning.phase).toBe('failed');
    expect(planning.failure).toBe('The worker is gone.');
    planner.failure = undefined;
    await planning.start();
    expect(planning.phase).toBe('done');
    expect(planning.failure).toBeUndefined();
  });

  it('asks again with other pins, of the job as it is', async () => {
    await planning.start();
    planning.wishes = { ...planning.wishes, pins: { ...planning.wishes.pins, kept_cables: ['F-C1', 'no-such-cable'] }, noHub: true };
    await planning.start();
    expect(planner.requests[0]!.pins!.kept_cables).toEqual([]);
    expect(planner.requests[1]).toMatchObject({ pins: { kept_cables: ['F-C1'] }, no_hub: true });
    expect(planner.calls.filter((call) => call.startsWith('begin'))).toHaveLength(2);
  });

  it('keeps the wishes and nothing else where today’s wiring is kept', async () => {
    planning.wishes = { ...planning.wishes, noHub: true };
    await planning.start();
    planning.forget();
    expect(planning.answer).toBeUndefined();
    expect(planning.wishes.noHub).toBe(true);
    expect(store.document).toBe(today);
  });

  it('takes no answer of a search that was forgotten', async () => {
    planner.onslice = (slice) => slice === 1 && planning.forget();
    await planning.start();
    expect(planning.phase).toBe('waiting');
    expect(planning.answer).toBeUndefined();
    expect(planning.trace).toEqual([]);
  });
});
