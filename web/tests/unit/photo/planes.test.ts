// SPDX-License-Identifier: Apache-2.0
import { describe, expect, it } from 'vitest';
import { planWalls, stretchOf, wallUnder, windOf } from '../../../src/job/walls';
import type { ProposedPlane } from '../../../src/engine/calibration';
import { choiceOf, facing, planeChoices, uprightPlane, usualPlane } from '../../../src/photo/planes';
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
  const proposed: readonly ProposedPlane[] = [
    { id: 'wall', name: 'The known wall', kind: 'wall', on_plane: [0, 0, 0], normal: [0, -1, 0], note: '' },
    { id: 'right-wall', name: 'Wall at its right edge', kind: 'wall', on_plane: [10, 0, 0], normal: [1, 0, 0], note: 'At a right angle' },
    { id: 'ground', name: 'Ground', kind: 'ground', on_plane: [0, 0, 0], normal: [0, 0, 1], note: 'Level' },
    { id: 'roof', name: 'Roof', kind: 'roof', on_plane: [0, 0, 3], normal: [0, -0.5, Math.sqrt(0.75)], note: '30 degrees' },
  ];

  it('of a wall face away from the house', () => {
    expect(uprightPlane([0, 0, 0], [10, 0, 0])).toEqual({ onPlane: [0, 0, 0], normal: [0, -1, 0] });
  });

  it('to choose from are the engine’s, and the walls of the plan', () => {
    const choices = planeChoices(proposed, planWalls(job(outline)), 90, 'metric');
    expect(choices.slice(0, 4).map(({ id, note }) => [id, note])).toEqual([['wall', undefined], ['right-wall', 'At a right angle'], ['ground', 'Level'], ['roof', '30 degrees']]);
    expect(choices).toHaveLength(8);
    expect(new Set(choices.map(({ id }) => id)).size).toBe(8);
  });

  it('are known again whichever side they face', () => {
    const choices = planeChoices(proposed, [], 90, 'metric');
    expect(choiceOf(choices, { on_plane: [4, 3, 0], normal: [0, 0, -1] })?.id).toBe('ground');
    expect(choiceOf(choices, { on_plane: [10, 5, 1], normal: [-1, 0, 0] })?.id).toBe('right-wall');
    expect(choiceOf(choices, { on_plane: [4, 3, 0.4], normal: [0, 0, 1] })).toBeUndefined();
  });

  it('are taken by kind before anybody has chosen, else the known wall', () => {
    expect(usualPlane('roof', proposed)?.onPlane).toEqual([0, 0, 3]);
    expect(usualPlane('ground', proposed)?.normal).toEqual([0, 0, 1]);
    expect(usualPlane('steps', proposed)?.normal).toEqual([0, -1, 0]);
    expect(usualPlane('wall', [])).toBeUndefined();
  });

  it('are turned to the camera', () => {
    expect(facing({ onPlane: [0, 0, 0], normal: [0, 1, 0] }, [3, -8, 1.6]).normal).toEqual([0, -1, 0]);
  });
});
