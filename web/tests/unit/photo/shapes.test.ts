// SPDX-License-Identifier: Apache-2.0
import { describe, expect, it } from 'vitest';
import type { View } from '../../../src/job/document';
import { adjoiningOutline, cornerAt, inside, markAt, meetsLeft, pointsOf, surfaceUnder, upEdge, wallCorners } from '../../../src/photo/shapes';

const square = (x: number, y: number, size: number) => [[x, y], [x + size, y], [x + size, y + size], [x, y + size]] as const;

const view: View = {
  id: 'v', image: 'x', width_px: 100, height_px: 100,
  surfaces: [
    { id: 'back', outline_px: square(0, 0, 50), on_plane: [0, 0, 0], normal: [0, 0, 1] },
    { id: 'front', outline_px: square(20, 20, 50), on_plane: [0, 0, 0], normal: [0, 0, 1] },
  ],
  masks: [{ id: 'sky', outline_px: square(60, 60, 20) }],
  measures: [{ id: 'm', from_px: [0, 90], to_px: [50, 90] }],
};

describe('outlines', () => {
  it('hold what lies inside, also where they turn inwards', () => {
    const notched = [[0, 0], [10, 0], [10, 10], [5, 2], [0, 10]] as const;
    expect(inside(notched, [1, 5])).toBe(true);
    expect(inside(notched, [5, 8])).toBe(false);
  });

  it('give the nearest corner within reach only', () => {
    expect(cornerAt(square(0, 0, 10), [9, 1], 3)).toBe(1);
    expect(cornerAt(square(0, 0, 10), [5, 5], 3)).toBeUndefined();
  });

  it('are picked from the front', () => {
    expect(markAt(view, [30, 30], 2)).toEqual({ list: 'surfaces', id: 'front' });
    expect(markAt(view, [65, 65], 2)).toEqual({ list: 'masks', id: 'sky' });
    expect(markAt(view, [25, 91], 2)).toEqual({ list: 'measures', id: 'm' });
    expect(markAt(view, [99, 1], 2)).toBeUndefined();
    expect(surfaceUnder(view, [[5, 5], [45, 45]])?.id).toBe('back');
  });
});

describe('the corners of a wall', () => {
  it.each([[[0, 1, 2, 3]], [[2, 0, 3, 1]], [[3, 2, 1, 0]]])('come into their order from %j', (order) => {
    // Leaning as walls do on photographs.
    const corners = [[10, 95], [90, 80], [92, 30], [8, 5]] as const;
    expect(wallCorners(order.map((index) => corners[index]!))).toEqual(corners);
  });
});

describe('the second wall', () => {
  const corners = [[40, 90], [90, 80], [90, 30], [40, 20]] as const;

  it('meets the known one at the end that is nearer', () => {
    const left = upEdge([[10, 30], [12, 85]]);
    expect(left).toEqual([[12, 85], [10, 30]]);
    expect(meetsLeft(corners, left)).toBe(true);
    expect(adjoiningOutline(corners, left)).toEqual([[12, 85], [40, 90], [40, 20], [10, 30]]);
    const right = upEdge([[120, 78], [120, 33]]);
    expect(meetsLeft(corners, right)).toBe(false);
    expect(adjoiningOutline(corners, right)).toEqual([[90, 80], [120, 78], [120, 33], [90, 30]]);
  });

  it('has no outline without a known wall, and its two places can be moved', () => {
    expect(adjoiningOutline([], [[1, 2], [1, 1]])).toEqual([]);
    const marked: View = { id: 'v', image: 'x', calibration: { method: 'vanishing_points', adjoining_px: [[12, 85], [10, 30]] } };
    expect(pointsOf(marked, { list: 'adjoining', id: '' })).toEqual([[12, 85], [10, 30]]);
    expect(pointsOf(view, { list: 'adjoining', id: '' })).toEqual([]);
  });
});
