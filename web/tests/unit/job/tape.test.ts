// SPDX-License-Identifier: Apache-2.0
import { describe, expect, test } from 'vitest';
import type { Point2 } from '../../../src/job/document';
import { distance } from '../../../src/job/edits/geometry';
import { placeByTapes, tapeToleranceM, type TapeOutcome } from '../../../src/job/edits/tape';

const met = (outcome: TapeOutcome): Extract<TapeOutcome, { kind: 'met' }> => {
  if (outcome.kind !== 'met') throw new Error(`expected the tapes to meet: ${JSON.stringify(outcome)}`);
  return outcome;
};

const near = (point: Point2, [x, y]: Point2): void => {
  expect(point[0]).toBeCloseTo(x, 9);
  expect(point[1]).toBeCloseTo(y, 9);
};

describe('where two tapes meet', () => {
  // Euclid I.47: sides 3, 4 and 5 hold a right angle.
  test('3 and 4 over 5 cross at a right angle, left of the line first', () => {
    const { places, crossingDeg, flat } = met(placeByTapes([0, 0], [5, 0], 3, 4));
    expect(places.map(({ side }) => side)).toEqual(['left', 'right']);
    near(places[0]!.point, [1.8, 2.4]);
    near(places[1]!.point, [1.8, -2.4]);
    expect(crossingDeg).toBeCloseTo(90, 9);
    expect(flat).toBe(false);
  });

  test('both places have both distances and mirror one another about a slanted line', () => {
    const [a, b]: [Point2, Point2] = [[-3, 7], [4.5, 1.25]];
    const { places } = met(placeByTapes(a, b, 6.2, 8.9));
    const [left, right] = [places[0]!.point, places[1]!.point];
    for (const point of [left, right]) {
      expect(distance(a, point)).toBeCloseTo(6.2, 9);
      expect(distance(b, point)).toBeCloseTo(8.9, 9);
    }
    const across = (right[0] - left[0]) * (b[0] - a[0]) + (right[1] - left[1]) * (b[1] - a[1]);
    expect(across).toBeCloseTo(0, 9);
    const turn = (b[0] - a[0]) * (left[1] - a[1]) - (b[1] - a[1]) * (left[0] - a[0]);
    expect(turn).toBeGreaterThan(0);
  });

  test('tapes that only touch give one place, a flat crossing and an error that is wide but has an end', () => {
    const between = met(placeByTapes([0, 0], [5, 0], 2, 3));
    expect(between.places.map(({ side }) => side)).toEqual(['between']);
    near(between.places[0]!.point, [2, 0]);
    expect(between.crossingDeg).toBeCloseTo(180, 4);
    expect(between.flat).toBe(true);
    expect(between.errorM).toBeGreaterThan(0.2);
    expect(between.errorM).toBeLessThan(1);
    const behind = met(placeByTapes([0, 0], [5, 0], 8, 3));
    near(behind.places[0]!.point, [8, 0]);
    expect(behind.crossingDeg).toBeCloseTo(0, 4);
    expect(behind.flat).toBe(true);
  });

  test('tapes that do not meet say how much is missing', () => {
    expect(placeByTapes([0, 0], [10, 0], 4, 5)).toEqual({ kind: 'too_short', missingM: 1, explained: false });
    expect(placeByTapes([0, 0], [2, 0], 9, 4)).toEqual({ kind: 'too_unequal', missingM: 3, explained: false });
    // 5 cm and 4 cm of tolerance explain 8 cm.
    expect(placeByTapes([0, 0], [9.08, 0], 5, 4)).toMatchObject({ kind: 'too_short', explained: true });
    expect(placeByTapes([0, 0], [9.1, 0], 5, 4)).toMatchObject({ kind: 'too_short', explained: false });
    expect(placeByTapes([1, 1], [1, 1], 4, 5)).toEqual({ kind: 'same_point' });
  });
});

describe('how far off it may be', () => {
  test('a tape is off by 1 %, at least by 2 cm', () => {
    expect(tapeToleranceM(0.5)).toBe(0.02);
    expect(tapeToleranceM(12)).toBeCloseTo(0.12, 12);
  });

  // Two tapes of 1 m, each good to 2 cm, at a chosen crossing angle.
  const at = (angleDeg: number) => met(placeByTapes([0, 0], [2 * Math.sin((angleDeg * Math.PI) / 360), 0], 1, 1));

  test('the error grows as one over the sine of the crossing angle', () => {
    const square = at(90).errorM;
    expect(square).toBeCloseTo(0.02 * Math.SQRT2, 12);
    for (const angleDeg of [31, 45, 60, 120, 149]) {
      const { errorM, crossingDeg } = at(angleDeg);
      expect(crossingDeg).toBeCloseTo(angleDeg, 9);
      expect(errorM * Math.sin((angleDeg * Math.PI) / 180)).toBeCloseTo(square, 9);
    }
  });

  test('below 30 and above 150 degrees it is called flat', () => {
    expect([29, 31, 149, 151].map((angleDeg) => at(angleDeg).flat)).toEqual([true, false, false, true]);
  });

  // A seeded row of tapes that are off: nine of ten places lie within the estimate, and it is not ten times too wide.
  test('places measured with tapes that are off lie within the estimate', () => {
    let seed = 7;
    const random = (): number => (seed = (seed * 16807) % 2147483647) / 2147483647;
    const [a, b]: [Point2, Point2] = [[0, 0], [8, 0]];
    const { places, errorM } = met(placeByTapes(a, b, 7, 5));
    const away = Array.from({ length: 400 }, () => {
      const off = (lengthM: number): number => lengthM + (2 * random() - 1) * tapeToleranceM(lengthM);
      return distance(places[0]!.point, met(placeByTapes(a, b, off(7), off(5))).places[0]!.point);
    }).toSorted((one, other) => one - other);
    expect(away[360]).toBeLessThan(errorM);
    expect(away[360]).toBeGreaterThan(errorM / 10);
  });
});
