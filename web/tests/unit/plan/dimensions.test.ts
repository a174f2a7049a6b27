// SPDX-License-Identifier: Apache-2.0
// Which lengths are written on the plan, and where.
import { describe, expect, test } from 'vitest';
import type { JobDocument } from '../../../src/job/document';
import { dimensionsOf, linesOf } from '../../../src/plan/dimensions';
import type { PlanFrame } from '../../../src/plan/frame';
import { garden } from '../support/garden';

const frame: PlanFrame = { centre: [0, 0], pxPerM: 40, widthPx: 800, heightPx: 600 };
const job: JobDocument = {
  ...garden(),
  plan: { areas: [{ id: 'lawn', kind: 'lawn', outline: [[-4, -3], [4, -3], [4, 3], [-4, 3]] }] },
  cables: [{ id: 'C1', item: 'c', from: 'T', to: 'F1', path: [[-3, 0], [0, 0], [0.2, 0]] }],
};
const texts = (chosen: string[], all: boolean, seen = frame): string[] =>
  dimensionsOf(linesOf(job, (kind, id) => chosen.includes(`${kind}/${id}`), all), seen, 'metric').map(({ text }) => text.replaceAll('\u00a0', ' '));

describe('dimension labels', () => {
  test('none where nothing is selected and the layer is off', () => expect(texts([], false)).toEqual([]));

  test('each stretch of what is selected that is long enough to be labelled', () => {
    expect(texts(['cable/C1'], false)).toEqual(['3.00 m']);
    expect(texts(['area/lawn'], false)).toEqual(['8.00 m', '6.00 m', '8.00 m', '6.00 m']);
  });

  test('all of them with the layer, the selected first', () => {
    expect(texts(['cable/C1'], true)).toEqual(['3.00 m', '8.00 m', '6.00 m', '8.00 m', '6.00 m']);
  });

  test('none on another, none outside, none wider than its stretch', () => {
    const far: PlanFrame = { ...frame, pxPerM: 6 };
    for (const { atPx } of dimensionsOf(linesOf(job, () => true, true), far, 'metric')) expect(atPx[0]).toBeGreaterThan(0);
    expect(texts(['area/lawn'], true, far).length).toBeLessThan(4);
    expect(texts(['area/lawn'], true, { ...frame, centre: [100, 100] })).toEqual([]);
    const doubled = [...linesOf(job, (kind) => kind === 'cable', false), ...linesOf(job, (kind) => kind === 'cable', false)];
    expect(dimensionsOf(doubled, frame, 'metric')).toHaveLength(1);
  });

  test('within the area that it measures, whichever way its outline runs', () => {
    for (const outline of [job.plan!.areas![0]!.outline, [...job.plan!.areas![0]!.outline].reverse()]) {
      const turned: JobDocument = { ...job, plan: { areas: [{ id: 'lawn', kind: 'lawn', outline }] } };
      const labels = dimensionsOf(linesOf(turned, (kind) => kind === 'area', false), frame, 'metric');
      expect(labels).toHaveLength(4);
      for (const { atPx: [x, y] } of labels) {
        expect(Math.abs(x - 400)).toBeLessThan(160);
        expect(Math.abs(y - 300)).toBeLessThan(120);
      }
    }
  });

  test('beside the line: above a level one, right of an upright one', () => {
    const [level] = dimensionsOf([{ key: 'a', path: [[0, 0], [3, 0]] }], frame, 'metric');
    expect(level!.atPx[0]).toBeCloseTo(460);
    expect(level!.atPx[1]).toBeLessThan(300 - 8);
    const [upright] = dimensionsOf([{ key: 'a', path: [[0, 0], [0, 3]] }], frame, 'metric');
    expect(upright!.atPx[0]).toBeGreaterThan(400 + 20);
    expect(upright!.atPx[1]).toBeCloseTo(240);
  });
});
