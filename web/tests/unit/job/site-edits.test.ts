// SPDX-License-Identifier: Apache-2.0
import { describe, expect, test } from 'vitest';
import type { JobDocument, Point2 } from '../../../src/job/document';
import { areaM2Of, crossesItself, drawArea, drawOutline, placeSpot, spotKinds } from '../../../src/job/edits/site';
import { applyOperations } from '../../../src/job/operations';
import { garden } from '../support/garden';
import { realEngine } from '../support/real-engine';

const square: Point2[] = [[0, 0], [4, 0], [4, 3], [0, 3]];
const bow: Point2[] = [[0, 0], [4, 3], [4, 0], [0, 3]];

describe('areas', () => {
  test('a square is 12 m² whichever way round, a bow crosses itself', () => {
    expect(areaM2Of(square)).toBe(12);
    expect(areaM2Of(square.toReversed())).toBe(12);
    expect(crossesItself(square)).toBe(false);
    expect(crossesItself(bow)).toBe(true);
    expect(drawArea('bed', bow)).toBeUndefined();
    expect(drawArea('bed', square.slice(0, 2))).toBeUndefined();
  });
});

test('every kind of thing on the site is one that the reader knows', async () => {
  const engine = await realEngine();
  let job: JobDocument = { ...garden(), luminaires: [] };
  for (const kind of spotKinds) job = applyOperations(job, placeSpot(job, kind, [1, 2]).command.changes).document;
  job = applyOperations(job, drawArea('root_zone', square)!.command.changes).document;
  const { value } = await engine.check(job, { cures: false });
  expect(value.problems.filter(({ severity }) => severity !== 'note')).toEqual([]);
});

test('a property line replaces the one before; a sleeve needs two ends', () => {
  let job = applyOperations(garden(), drawOutline('property_line', square)!.command.changes).document;
  job = applyOperations(job, drawOutline('property_line', square.slice(0, 3))!.command.changes).document;
  expect(job.plan!.property_line).toHaveLength(3);
  expect(drawOutline('property_line', bow)).toBeUndefined();
  expect(drawOutline('sleeve', square.slice(0, 1))).toBeUndefined();
  job = applyOperations(job, drawOutline('sleeve', square.slice(0, 2))!.command.changes).document;
  expect(job.plan!.sleeves).toHaveLength(1);
});
