// SPDX-License-Identifier: Apache-2.0
// What a press meets, and what hides a lamp, from a camera that looks north along the level.
import { describe, expect, it } from 'vitest';
import type { Camera } from '../../../src/engine/calibration';
import type { JobDocument, View } from '../../../src/job/document';
import { isHidden, spotUnder } from '../../../src/photo/ground-under';
import { garden } from '../support/garden';

const camera: Camera = {
  width_px: 1000, height_px: 600, focal_px: 800, principal_point_px: [500, 300], position: [0, -10, 2],
  axes: [[1, 0, 0], [0, 0, -1], [0, 1, 0]],
};
// A wall 10 m away, 4 m wide, from the ground to 3 m.
const wall = { id: 'wall', outline_px: [[340, 460], [660, 460], [660, 220], [340, 220]], on_plane: [0, 0, 0], normal: [0, -1, 0] } as const;
const view: View = { id: 'v', image: 'x', surfaces: [wall], trees: [{ id: 't', outline_px: [[700, 500], [800, 500], [750, 200]], foot: [3, -2, 0] }] };
const job: JobDocument = { ...garden(), plan: { areas: [{ id: 'house', kind: 'building', height_m: 3, outline: [[-2, 0], [2, 0], [2, 5], [-2, 5]] }] } };

describe('a press on the photograph', () => {
  it('meets the wall where one is outlined, and says that it is no ground', () => {
    const spot = spotUnder(view, camera, [580, 300])!;
    expect(spot.level).toBe(false);
    expect(spot.place).toEqual([1, 0, 2]);
  });

  it('meets the ground elsewhere, and a tree at its foot', () => {
    // 200 elements under the horizon: 2 m down at 8 m away.
    const ground = spotUnder(view, camera, [500, 500])!;
    expect(ground.level).toBe(true);
    expect(ground.place[1]).toBeCloseTo(-2, 9);
    const tree = spotUnder(view, camera, [750, 300])!;
    expect(tree.level).toBe(false);
    expect(Math.hypot(tree.place[0] - 3, tree.place[1] + 2)).toBeLessThan(1);
    expect(spotUnder(view, camera, [100, 200])).toBeUndefined();
  });
});

describe('a lamp', () => {
  it.each([
    ['before the wall', [0, -1, 0.2], false],
    ['close to the wall', [0, -0.1, 0.2], false],
    ['behind the house', [0, 8, 0.2], true],
    ['over the roof', [0, 8, 9], false],
    ['beside the house', [6, 8, 0.2], false],
  ] as const)('%s is hidden: %s %s', (_, place, hidden) => {
    expect(isHidden(job, { ...view, surfaces: [] }, camera, place)).toBe(hidden);
  });

  it('is hidden by what is outlined alone, too', () => {
    expect(isHidden(garden(), view, camera, [0, 8, 0.2])).toBe(true);
    expect(isHidden(garden(), view, camera, [0, -0.1, 0.2])).toBe(false);
  });
});
