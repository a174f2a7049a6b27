// SPDX-License-Identifier: Apache-2.0
import { expect, it } from 'vitest';
import { boundsOf } from '../../../../src/plan/sheet/bounds';
import { sheetOf, usualTurn } from '../../../../src/plan/sheet/choice';
import { garden } from '../../support/garden';

const tall = { leftM: 0, rightM: 10, bottomM: 0, topM: 36 };
const wide = { leftM: 0, rightM: 36, bottomM: 0, topM: 10 };

it('takes the largest scale that fits where none is chosen', () => {
  // 36 m at 1:200 are 180 mm; the plan of an upright A4 is 212 mm high (297 less 20 of margin, 7 of bar, 58 of title).
  const sheet = sheetOf({ paper: 'a4', turn: 'portrait', ratio: undefined }, tall, 'metric');
  expect(sheet.scale.ratio).toBe(200);
  expect(sheet.misfit).toBeUndefined();
});

it('keeps a chosen scale that is too large, says so and offers the next that fits', () => {
  const sheet = sheetOf({ paper: 'a4', turn: 'portrait', ratio: 100 }, tall, 'metric');
  expect(sheet.scale.ratio).toBe(100);
  expect(sheet.misfit?.words).toMatch(/^At 1:100 the plan takes 114 by 374 mm/);
  expect(sheet.misfit?.instead?.ratio).toBe(200);
});

it('forgets a chosen scale that the units do not have', () => {
  expect(sheetOf({ paper: 'letter', turn: 'portrait', ratio: 200 }, tall, 'us').scale.text).toContain('1" =');
});

it('offers nothing where no scale fits', () => {
  const sheet = sheetOf({ paper: 'a4', turn: 'portrait', ratio: undefined }, { ...tall, topM: 2000 }, 'metric');
  expect(sheet.scale.ratio).toBe(1000);
  expect(sheet.misfit).toMatchObject({ instead: undefined });
});

it('turns the paper as the garden lies', () => {
  expect(usualTurn('a4', tall, 'metric')).toBe('portrait');
  expect(usualTurn('a4', wide, 'metric')).toBe('landscape');
});

it('bounds all that is drawn, crowns of trees too', () => {
  const job = {
    ...garden(),
    plan: { trees: [{ id: 't', position: [2, 3] as const, crown_width_m: 8 }], property_line: [[0, 0], [12, 0], [12, 5]] as const },
    luminaires: [{ id: 'F1', item: 'a', position: [-6, 1, 0] as const }],
  };
  expect(boundsOf(job)).toEqual({ leftM: -6, rightM: 12, bottomM: -1, topM: 7 });
});

it('gives an empty job the sheet of a garden', () => {
  expect(boundsOf({ ...garden(), luminaires: [] })).toEqual({ leftM: -15, rightM: 15, bottomM: -10, topM: 10 });
});
