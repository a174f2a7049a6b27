// SPDX-License-Identifier: Apache-2.0
import { describe, expect, test } from 'vitest';
import type { JobDocument, Point2 } from '../../../src/job/document';
import { snap, type SnapWish } from '../../../src/plan/tools/snap';
import { garden } from '../support/garden';

const job: JobDocument = {
  ...garden(),
  plan: { areas: [{ id: 'house', kind: 'building', outline: [[0, 0], [10, 0], [10, 6], [0, 6]] }] },
  luminaires: [{ id: 'F1', name: 'Oak', item: 'a', position: [20, 20, 0] }],
  transformers: [],
  cables: [{ id: 'c', item: 'x', from: 'F1', to: 'F1', path: [[20, 20], [30, 20]] }],
};
const at = (point: Point2, more: Partial<SnapWish> = {}): ReturnType<typeof snap> => snap({ job, at: point, radiusM: 0.5, takes: () => true, ...more });

describe('snap', () => {
  test('finds places by name, the nearest first', () => {
    expect(at([0.2, 0.1])).toMatchObject({ point: [0, 0], name: 'corner of building' });
    expect(at([5.1, 0.2])).toMatchObject({ point: [5, 0], name: 'middle of building' });
    expect(at([20.1, 20.1])).toMatchObject({ point: [20, 20], name: 'Oak', ref: { kind: 'luminaire', id: 'F1' } });
    expect(at([25, 20.3])).toMatchObject({ point: [25, 20], name: 'middle of cable' });
  });

  test('falls back to the edge, then to nothing', () => {
    expect(at([2, 0.3])).toMatchObject({ point: [2, 0], name: 'on edge of building' });
    expect(at([14, 14])).toBeUndefined();
  });

  test('keeps directions in steps of 15 degrees from the last point', () => {
    const found = at([14.01, 14.1], { from: [10, 14] });
    expect(found?.name).toBe('0°');
    expect(found?.point[0]).toBeCloseTo(14.01, 12);
    expect(found?.point[1]).toBeCloseTo(14, 12);
    expect(at([13, 17.05], { from: [10, 14] })?.name).toBe('45°');
    expect(at([14, 14.9], { from: [10, 14] })?.name).toBe('15°');
  });

  test('takes the crossing of a direction and an edge', () => {
    const found = at([3.05, 6.2], { from: [3, 12] });
    expect(found?.name).toBe('90° on edge of building');
    expect(found?.point[0]).toBeCloseTo(3, 12);
    expect(found?.point[1]).toBeCloseTo(6, 12);
  });

  test('leaves out what is locked or moves itself', () => {
    expect(at([20.1, 20.1], { takes: (kind) => kind === 'area' })).toBeUndefined();
    expect(at([20.1, 20.1], { without: new Set(['luminaire/F1', 'cable/c']) })).toBeUndefined();
  });
});
