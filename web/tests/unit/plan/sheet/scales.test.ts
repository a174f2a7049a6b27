// SPDX-License-Identifier: Apache-2.0
import { describe, expect, it } from 'vitest';
import { fits, largestFitting, misfitWords, paperNeeded, pxPerMOf, scalesOf, type Bounds } from '../../../../src/plan/sheet/scales';

const garden: Bounds = { leftM: -3, rightM: 17, bottomM: 0, topM: 30 };
const room = (widthMm: number, heightMm: number) => ({ xMm: 0, yMm: 0, widthMm, heightMm });

it('draws one metre at 1:100 as 10 mm of paper, which are 37.795 px', () => {
  // 10 mm / 25.4 mm * 96 px, by hand.
  expect(pxPerMOf(100)).toBeCloseTo(37.7952755906, 9);
});

it('names US scales by feet to an inch: 12 inches a foot', () => {
  expect(scalesOf('us').find(({ ratio }) => ratio === 96)?.text).toBe(`1" = 8' (1:96)`);
  expect(scalesOf('us').find(({ ratio }) => ratio === 240)?.text).toBe(`1" = 20' (1:240)`);
  expect(scalesOf('us').map(({ ratio }) => ratio / 12)).toEqual([4, 8, 10, 16, 20, 30, 40, 50, 60, 100]);
  expect(scalesOf('metric').map(({ text }) => text)).toContain('1:200');
});

it('needs the garden by its scale and 7 mm for marks at each side', () => {
  // 20 m and 30 m at 1:200 are 100 mm and 150 mm.
  expect(paperNeeded(garden, 200)).toEqual({ widthMm: 114, heightMm: 164 });
});

it('fits to the millimetre and not beyond', () => {
  expect(fits(garden, 200, room(114, 164))).toBe(true);
  expect(fits(garden, 200, room(113.9, 164))).toBe(false);
  expect(fits(garden, 200, room(114, 163.9))).toBe(false);
});

describe('the largest scale that fits', () => {
  it('is the first of the list that leaves nothing out', () => {
    expect(largestFitting(garden, 'metric', room(190, 270))?.ratio).toBe(200);
    expect(largestFitting(garden, 'metric', room(300, 400))?.ratio).toBe(100);
    // 30 m at 1:120 are 250 mm and 14 mm more; at 1:96 they are 312.5 mm.
    expect(largestFitting(garden, 'us', room(190, 264.1))?.ratio).toBe(120);
  });

  it('is none where the garden is larger than any', () => {
    expect(largestFitting({ leftM: 0, rightM: 900, bottomM: 0, topM: 900 }, 'metric', room(190, 270))).toBeUndefined();
  });
});

it('says how much too large a plan is, in the units of the job', () => {
  const [metric] = scalesOf('metric').filter(({ ratio }) => ratio === 50);
  expect(misfitWords(garden, metric!, 'metric', room(190, 219))).toBe('At 1:50 the plan takes 414 by 614 mm. This sheet has room for 190 by 219. What lies outside is cut off.');
  const [us] = scalesOf('us').filter(({ ratio }) => ratio === 48);
  // 20 m / 48 + 14 mm = 430.67 mm = 16.96 in; 30 m / 48 + 14 mm = 639 mm = 25.16 in.
  expect(misfitWords(garden, us!, 'us', room(190.5, 215.9))).toContain('takes 17.0 by 25.2 inches. This sheet has room for 7.5 by 8.5');
});
