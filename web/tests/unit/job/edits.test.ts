// SPDX-License-Identifier: Apache-2.0
// Drawing as commands: what follows what, what closes up, and that every step can be undone to the letter.
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import type { Engine } from '../../../src/engine/client';
import type { CableItem, JobDocument, LuminaireItem, Point2, TransformerItem } from '../../../src/job/document';
import { evenlyAlong } from '../../../src/job/edits/along';
import { alignThings, copyThings, spaceEvenly } from '../../../src/job/edits/arrange';
import { lengthOf } from '../../../src/job/edits/geometry';
import { cornerInserted, cornerRemoved, moveChanges, vertexChanges, type ThingRef } from '../../../src/job/edits/move';
import { cableEndOf, layCable, placeLuminaire, placeTransformer, splitCable, type CableEnd } from '../../../src/job/edits/place';
import { removeCommand } from '../../../src/job/edits/remove';
import { routesOf } from '../../../src/job/edits/routes';
import { findThing, thingsOf } from '../../../src/job/lookup';
import { applyOperations, type Command } from '../../../src/job/operations';
import { JobStore } from '../../../src/job/store.svelte';
import { realEngine } from '../support/real-engine';

const demo = JSON.parse(readFileSync(resolve(import.meta.dirname, '../../../../examples/ostrey-garden.json'), 'utf8')) as JobDocument;
const lampItem = demo.catalogue!.luminaires![0] as LuminaireItem;
const cableItem = demo.catalogue!.cables![0] as CableItem;
const transformerItem = demo.catalogue!.transformers![0] as TransformerItem;
const empty: JobDocument = { format: 'duskwire-job', version: 1, id: 'g', site: demo.site, catalogue: {}, luminaires: [], transformers: [], cables: [], joints: [] };

const done = (job: JobDocument, command: Command): JobDocument => applyOperations(job, command.changes).document;

/** A transformer and lights in a row 10 m apart, in a chain. */
function chain(lights: number): { job: JobDocument; lamps: string[] } {
  let { job } = { job: empty };
  const first = placeTransformer(job, transformerItem, [0, 0]);
  job = done(job, first.command);
  const lamps: string[] = [];
  let from: CableEnd = cableEndOf(job, first.made, [0, 0])!;
  for (let i = 1; i <= lights; i += 1) {
    const lamp = placeLuminaire(job, lampItem, [10 * i, 0]);
    job = done(job, lamp.command);
    lamps.push(lamp.made.id);
    const to: CableEnd = { at: 'end', id: lamp.made.id, point: [10 * i, 0] };
    job = done(job, layCable(job, cableItem, from, [], to)!.command);
    from = to;
  }
  return { job, lamps };
}

let engine: Engine;
beforeAll(async () => {
  engine = await realEngine();
});

const errorsOf = async (job: JobDocument): Promise<string[]> => {
  const { value } = await engine.check(job, { cures: false });
  return value.problems.filter(({ severity }) => severity === 'error').map(({ message }) => message);
};

describe('placing and laying', () => {
  test('a drawn chain is a document without an error, and every lamp is answered', async () => {
    const { job } = chain(3);
    const { value } = await engine.check(job, { cures: false });
    expect(value.problems.filter(({ severity }) => severity === 'error')).toEqual([]);
    expect(value.report?.lamps.map(({ state }) => state)).toEqual(['regulated', 'regulated', 'regulated'].slice(0, value.report?.lamps.length));
    expect(value.report?.lamps).toHaveLength(3);
  });

  test('items come along once, into the job', () => {
    const { job } = chain(3);
    expect(job.catalogue?.luminaires).toHaveLength(1);
    expect(job.catalogue?.cables).toHaveLength(1);
  });

  test('a cable onto a cable sets a joint and keeps the length of both halves', async () => {
    const { job } = chain(1);
    const before = lengthOf(job.cables![0]!.path!);
    const lamp = placeLuminaire(job, lampItem, [4, 5]);
    const withLamp = done(job, lamp.command);
    const laid = layCable(withLamp, cableItem, { at: 'end', id: lamp.made.id, point: [4, 5] }, [], { at: 'cable', id: job.cables![0]!.id, point: [4, 0.1] })!;
    const after = done(withLamp, laid.command);
    expect(after.joints).toHaveLength(1);
    expect(after.joints![0]!.position).toEqual([4, 0]);
    expect(after.cables).toHaveLength(3);
    const routes = routesOf(after);
    expect(lengthOf(routes.get(job.cables![0]!.id)!) + lengthOf(routes.get(after.cables![1]!.id)!)).toBeCloseTo(before, 12);
    expect(await errorsOf(after)).toEqual([]);
  });

  test('a measured length is shared out where a cable is cut', () => {
    const { job } = chain(1);
    const id = job.cables![0]!.id;
    const measured = done(job, { label: '', changes: [{ op: 'set', path: ['cables', { id }, 'length_m'], value: 12 }] });
    const after = done(measured, { label: '', changes: splitCable(measured, id, [2.5, 0])!.changes });
    expect(after.cables!.map(({ length_m }) => length_m)).toEqual([3, 9]);
  });

  test('a cable needs two ends', () => {
    const { job, lamps } = chain(1);
    const end: CableEnd = { at: 'end', id: lamps[0]!, point: [10, 0] };
    expect(layCable(job, cableItem, end, [[3, 3]], end)).toBeUndefined();
  });

  test('a second cable from a transformer takes its freest output', () => {
    const two = { ...transformerItem, id: 'two', output_count: 2 };
    const placed = placeTransformer(empty, two, [0, 0]);
    const job = done(empty, placed.command);
    const lamp = placeLuminaire(job, lampItem, [5, 0]);
    const first = cableEndOf(job, placed.made, [0, 0])!;
    const withCable = done(done(job, lamp.command), layCable(done(job, lamp.command), cableItem, first, [], { at: 'end', id: lamp.made.id, point: [5, 0] })!.command);
    const second = cableEndOf(withCable, placed.made, [0, 0])!;
    expect(first.at === 'end' && second.at === 'end' && first.id !== second.id).toBe(true);
  });
});

describe('moving', () => {
  test('a lamp takes the ends of its cables along, and only those', () => {
    const { job, lamps } = chain(2);
    const after = applyOperations(job, moveChanges(job, [{ kind: 'luminaire', id: lamps[0]! }], [1, 2])).document;
    expect(after.cables![0]!.path).toEqual([[0, 0], [11, 2]]);
    expect(after.cables![1]!.path).toEqual([[11, 2], [20, 0]]);
    expect(after.luminaires![0]!.position).toEqual([11, 2, lampItem.mounting_height_m ?? 0]);
  });

  test('a route whose two ends move goes along whole', () => {
    const { job, lamps } = chain(2);
    const id = job.cables![1]!.id;
    const bent = applyOperations(job, cornerInserted(job, { kind: 'cable', id }, 0, [15, 5])).document;
    const refs = lamps.map((lamp) => ({ kind: 'luminaire', id: lamp }) as const);
    const after = applyOperations(bent, moveChanges(bent, refs, [0, 1])).document;
    expect(after.cables![1]!.path).toEqual([[10, 1], [15, 6], [20, 1]]);
  });

  test('a bend is moved and taken out, an end is neither', () => {
    const { job } = chain(1);
    const ref: ThingRef = { kind: 'cable', id: job.cables![0]!.id };
    const bent = applyOperations(job, cornerInserted(job, ref, 0, [5, 5])).document;
    const moved = applyOperations(bent, vertexChanges(bent, ref, 1, [6, 6])).document;
    expect(moved.cables![0]!.path).toEqual([[0, 0], [6, 6], [10, 0]]);
    expect(cornerRemoved(moved, ref, 0)).toEqual([]);
    expect(applyOperations(moved, cornerRemoved(moved, ref, 1)).document.cables![0]!.path).toEqual([[0, 0], [10, 0]]);
  });
});

describe('removing', () => {
  test('a chain closes over the light that goes', async () => {
    const { job, lamps } = chain(3);
    const after = done(job, removeCommand(job, [{ kind: 'luminaire', id: lamps[1]! }])!);
    expect(after.cables).toHaveLength(2);
    expect(after.cables![1]).toMatchObject({ from: lamps[0], to: lamps[2], path: [[10, 0], [20, 0], [30, 0]] });
    expect(await errorsOf(after)).toEqual([]);
  });

  test('the last light takes its cable along, and the words say so', () => {
    const { job, lamps } = chain(2);
    const command = removeCommand(job, [{ kind: 'luminaire', id: lamps[1]! }])!;
    expect(command.label).toBe('Remove light Light 2 and 1 cable');
    expect(done(job, command).cables).toHaveLength(1);
  });

  test('a fork keeps a joint where its light was', async () => {
    const { job, lamps } = chain(2);
    const lamp = placeLuminaire(job, lampItem, [10, 9]);
    const forked = done(done(job, lamp.command), layCable(done(job, lamp.command), cableItem, { at: 'end', id: lamps[0]!, point: [10, 0] }, [], { at: 'end', id: lamp.made.id, point: [10, 9] })!.command);
    const after = done(forked, removeCommand(forked, [{ kind: 'luminaire', id: lamps[0]! }])!);
    expect(after.joints).toMatchObject([{ id: lamps[0], kind: 'branch', position: [10, 0] }]);
    expect(after.cables).toHaveLength(3);
    expect(await errorsOf(after)).toEqual([]);
  });

  test('whatever is removed of the demo, the rest is a document without dangling ends', async () => {
    for (const thing of [...thingsOf(demo)]) {
      const command = removeCommand(demo, [{ kind: thing.kind, id: thing.value.id }]);
      if (!command) continue;
      const messages = await errorsOf(done(demo, command));
      expect(messages, `${thing.kind} ${thing.value.id}`).toEqual([]);
    }
  });
});

describe('arranging', () => {
  test('evenly between the two that are farthest apart, cables along', () => {
    const { job, lamps } = chain(4);
    const uneven = applyOperations(job, moveChanges(job, [{ kind: 'luminaire', id: lamps[1]! }], [4, 3])).document;
    const after = done(uneven, spaceEvenly(uneven, lamps.map((id) => ({ kind: 'luminaire', id })))!);
    expect(after.luminaires!.map(({ position }) => [position![0], position![1]])).toEqual([[10, 0], [20, 0], [30, 0], [40, 0]]);
    expect(after.cables![1]!.path).toEqual([[10, 0], [20, 0]]);
    expect(after.cables![2]!.path).toEqual([[20, 0], [30, 0]]);
  });

  test('evenly along a bent edge that is selected with them, all equally far aside, and the area stays', () => {
    const lights = [[1, 0.5], [3, 0.7], [4.5, 0.5], [9.3, 8]] as const;
    const job: JobDocument = {
      ...chain(1).job, cables: [], joints: [],
      plan: { areas: [{ id: 'walk', kind: 'paving', outline: [[0, 0], [10, 0], [10, 10], [0, 10]] }] },
      luminaires: lights.map(([x, y], i) => ({ id: `L${i}`, item: 'a', position: [x, y, 0] })),
    };
    const command = spaceEvenly(job, [{ kind: 'area', id: 'walk' }, ...lights.map((_, i) => ({ kind: 'luminaire' as const, id: `L${i}` }))])!;
    const after = done(job, command);
    // Stations 1 to 18 round the corner at 10, so 17/3 m apart; aside 0.5, 0.7, 0.5, 0.7, the median 0.6.
    const expected = [[1, 0.6], [1 + 17 / 3, 0.6], [9.4, 1 + 34 / 3 - 10], [9.4, 8]];
    after.luminaires!.forEach(({ position }, i) => {
      expect(position![0]).toBeCloseTo(expected[i]![0]!, 9);
      expect(position![1]).toBeCloseTo(expected[i]![1]!, 9);
    });
    expect(after.plan).toEqual(job.plan);
    expect(command.label).toBe('Space 4 things evenly along the edge of the area');
  });

  test('a row across the corner where an outline begins stays on its side of the outline', () => {
    const outline = [[0, 0], [10, 0], [10, 10], [0, 10]] as const;
    const targets = evenlyAlong({ path: outline, closed: true }, [[3, 0], [0, 4], [0, 1]]);
    // From (0, 4) down over the corner to (3, 0): 7 m, the middle one 3.5 m from either.
    [[3, 0], [0, 4], [0, 0.5]].forEach(([x, y], i) => {
      expect(targets[i]![0]).toBeCloseTo(x!, 9);
      expect(targets[i]![1]).toBeCloseTo(y!, 9);
    });
  });

  test('in line with the mean', () => {
    const { job, lamps } = chain(2);
    const uneven = applyOperations(job, moveChanges(job, [{ kind: 'luminaire', id: lamps[1]! }], [0, 2])).document;
    const after = done(uneven, alignThings(uneven, lamps.map((id) => ({ kind: 'luminaire', id })))!);
    expect(after.luminaires!.map(({ position }) => position![1])).toEqual([1, 1]);
  });

  test('copies have names and ids of their own and no wiring', async () => {
    const copied = copyThings(demo, demo.luminaires!.slice(0, 5).map(({ id }) => ({ kind: 'luminaire', id })), [1, -1])!;
    const after = done(demo, copied.command);
    expect(after.luminaires).toHaveLength(demo.luminaires!.length + 5);
    const made = after.luminaires!.slice(-5);
    expect(new Set(made.map(({ name }) => name)).size).toBe(5);
    expect(made.every(({ joint }) => joint === undefined)).toBe(true);
  });
});

test('1,000 random steps of drawing, undo and redo come back to the same document', () => {
  let seed = 20260301;
  const dice = (n: number): number => {
    seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
    return Math.floor((seed / 2 ** 32) * n);
  };
  const store = new JobStore(demo);
  const states = [JSON.stringify(store.document)];
  let at = 0;
  const anyOf = (): ThingRef | undefined => {
    const all = [...thingsOf(store.document)].filter(({ kind }) => kind !== 'output');
    const thing = all[dice(all.length)];
    return thing && { kind: thing.kind, id: thing.value.id };
  };
  const spot = (): Point2 => [dice(400) / 10, dice(400) / 10];
  const commands: (() => Command | undefined)[] = [
    () => placeLuminaire(store.document, lampItem, spot()).command,
    () => placeTransformer(store.document, transformerItem, spot()).command,
    () => {
      const [a, b] = [anyOf(), anyOf()];
      const from = a && cableEndOf(store.document, a, spot());
      const to = b && cableEndOf(store.document, b, spot());
      return from && to && from.at !== 'cable' ? layCable(store.document, cableItem, from, [spot()], to)?.command : undefined;
    },
    () => {
      const ref = anyOf();
      return ref && { label: 'Move', changes: moveChanges(store.document, [ref], spot()) };
    },
    () => {
      const ref = anyOf();
      return ref && removeCommand(store.document, [ref]);
    },
    () => {
      const ref = anyOf();
      return ref && copyThings(store.document, [ref], [1, 1])?.command;
    },
  ];
  for (let step = 0; step < 1000; step += 1) {
    const choice = dice(10);
    if (choice === 0 && store.undoLabel !== undefined && at > 0) {
      store.undo();
      at -= 1;
    } else if (choice === 1 && store.redoLabel !== undefined) {
      store.redo();
      at += 1;
    } else {
      const command = commands[dice(commands.length)]!();
      if (!command || command.changes.length === 0) continue;
      store.run(command);
      at += 1;
      states.length = at;
      states.push(JSON.stringify(store.document));
    }
    expect(JSON.stringify(store.document)).toBe(states[at]);
  }
  expect(states.length).toBeGreaterThan(300);
  expect(findThing(store.document, 'none')).toBeUndefined();
});
