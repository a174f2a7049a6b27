// SPDX-License-Identifier: Apache-2.0
// Aim, place and colour of a light in space.
import { describe, expect, it } from 'vitest';
import type { JobDocument } from '../../../src/job/document';
import { aimAt, colourLamp, isAimed, moveLampChanges, wayOfAim } from '../../../src/job/edits/lamp';
import { applyOperations } from '../../../src/job/operations';
import { garden } from '../support/garden';

const bullet = { id: 'bullet', title: 'Bullet', kind: 'bullet', lamp: 'regulated_led', power_w: 4, power_va: 5, window_min_v: 11, window_max_v: 15, colour_temperature_k: 2700 } as const;
const job: JobDocument = {
  ...garden(),
  catalogue: { luminaires: [bullet] },
  luminaires: [{ id: 'F1', item: 'bullet', position: [1, 2, 0.2] }],
  cables: [{ id: 'C', item: 'x', from: 'O', to: 'F1', path: [[0, 0], [1, 2]] }],
};
const [lamp] = job.luminaires!;

describe('aim', () => {
  it.each([
    [[0, 5, 0], 0, 0],
    [[5, 0, 0], 90, 0],
    [[0, -3, 3], 180, 45],
    [[-2, 0, -2], 270, -45],
  ] as const)('at %j looks %d° from north and %d° up', (at, azimuth, tilt) => {
    const aim = aimAt([0, 0, 0], at);
    expect(aim).toEqual({ azimuth_deg: azimuth, tilt_deg: tilt });
    const way = wayOfAim(aim.azimuth_deg, aim.tilt_deg);
    const far = Math.hypot(...at);
    way.forEach((value, index) => expect(value).toBeCloseTo(at[index]! / far, 9));
  });

  it('counts from the plan’s north', () => {
    // North to the left of the sheet: the sheet's up is east.
    expect(aimAt([0, 0, 0], [0, 1, 0], 180).azimuth_deg).toBe(90);
    wayOfAim(90, 0, 180).forEach((value, index) => expect(value).toBeCloseTo([0, 1, 0][index]!, 12));
  });

  it('straight up keeps its turn', () => {
    expect(aimAt([0, 0, 0], [0, 0, 2], 90, 33)).toEqual({ azimuth_deg: 33, tilt_deg: 90 });
  });

  it('belongs to lamps that throw their light one way', () => {
    expect(isAimed(bullet)).toBe(true);
    expect(isAimed({ ...bullet, kind: 'path' })).toBe(false);
    expect(isAimed({ ...bullet, beam_deg: 360 })).toBe(false);
  });
});

describe('moving a light', () => {
  it('takes its cable along and its height', () => {
    const { document } = applyOperations(job, moveLampChanges(job, lamp!, [3, 2, 0.5]));
    expect(document.luminaires![0]!.position).toEqual([3, 2, 0.5]);
    expect(document.cables![0]!.path).toEqual([[0, 0], [3, 2]]);
  });
});

describe('another colour', () => {
  it('is another article of the job, and back again the first', () => {
    const warm = applyOperations(job, colourLamp(job, lamp!, 2200)!.changes).document;
    expect(warm.luminaires![0]!.item).toBe('bullet-2200k');
    expect(warm.catalogue!.luminaires!.map(({ id, title, colour_temperature_k }) => [id, title, colour_temperature_k])).toEqual([['bullet', 'Bullet', 2700], ['bullet-2200k', 'Bullet, 2200 K', 2200]]);
    const again = applyOperations(warm, colourLamp(warm, warm.luminaires![0]!, 2700)!.changes).document;
    expect(again.luminaires![0]!.item).toBe('bullet');
    expect(again.catalogue!.luminaires).toHaveLength(2);
    expect(colourLamp(job, lamp!, 2700)).toBeUndefined();
  });
});
