// SPDX-License-Identifier: Apache-2.0
import { describe, expect, it } from 'vitest';
import { planWalls, stretchOf, wallUnder, windOf } from '../../../src/job/walls';
import { choiceOf, facing, planeChoices, roofPlane, uprightPlane } from '../../../src/photo/planes';
import { garden } from '../support/garden';

const outline = [[0, 0], [10, 0], [10, 6], [0, 6]] as const;
const job = (turned: readonly (readonly [number, number])[]) => ({ ...garden(), plan: { areas: [{ id: 'house', kind: 'building' as const, height_m: 5, outline: turned }, { id: 'lawn', kind: 'lawn' as const, outline: turned }] } });

describe('walls of the plan', () => {
  it.each([['left', outline], ['right', [...outline].reverse()]])('face outwards where the outline turns %s', (_, points) => {
    const walls = planWalls(job(points));
    expect(walls).toHaveLength(4);
    const south = walls.find(({ faces }) => faces[1] < -0.5)!;
    expect([south.left, south.right, south.lengthM, south.heightM]).toEqual([[0, 0], [10, 0], 10, 5]);
    const east = walls.find(({ faces }) => faces[0] > 0.5)!;
    expect([east.left, east.right]).toEqual([[10, 0], [10, 6]]);
  });

  it('know the wind by the plan’s north', () => {
    expect(windOf([0, -1])).toBe('south');
    expect(windOf([1, 0])).toBe('east');
    // North to the left of the sheet: what looks down looks west.
    expect(windOf([0, -1], 180)).toBe('west');
  });

  it('find a stretch again', () => {
    const walls = planWalls(job(outline));
    const south = walls.find(({ faces }) => faces[1] < -0.5)!;
    const { left, right } = stretchOf(south, 2, 3, 0.5);
    expect([left, right]).toEqual([[2, 0, 0.5], [5, 0, 0.5]]);
    expect(wallUnder(walls, left, right)).toMatchObject({ wall: { id: south.id }, offsetM: 2 });
    expect(wallUnder(walls, [2, -1, 0], [5, -1, 0])).toBeUndefined();
  });
});

describe('planes', () => {
  const wall = { corners_px: [], left: [0, 0, 0], right: [10, 0, 0], height_m: 3 } as const;

  it('of a wall face away from the house', () => {
    expect(uprightPlane(wall.left, wall.right)).toEqual({ onPlane: [0, 0, 0], normal: [0, -1, 0] });
  });

  it('of a roof rise inwards from the top', () => {
    const { onPlane, normal } = roofPlane(wall, 45);
    expect(onPlane).toEqual([0, 0, 3]);
    expect(normal[1]).toBeCloseTo(-Math.SQRT1_2, 12);
    expect(normal[2]).toBeCloseTo(Math.SQRT1_2, 12);
  });

  it('are known again whichever side they face', () => {
    const choices = planeChoices(wall, [], 90, 'metric');
    expect(choiceOf(choices, { on_plane: [4, 3, 0], normal: [0, 0, -1] })?.id).toBe('ground');
    expect(choiceOf(choices, { on_plane: [10, 5, 1], normal: [-1, 0, 0] })?.id).toBe('right');
    expect(choiceOf(choices, { on_plane: [4, 3, 0.4], normal: [0, 0, 1] })).toBeUndefined();
  });

  it('are turned to the camera', () => {
    expect(facing({ onPlane: [0, 0, 0], normal: [0, 1, 0] }, [3, -8, 1.6]).normal).toEqual([0, -1, 0]);
  });
});
