// SPDX-License-Identifier: Apache-2.0
// A place from two tape measures: two known points and the distance from each. Two circles meet in two places, which lie
// as mirror images about the line between the points. Metres.
import type { Point2 } from '../document';
import { distance } from './geometry';

/** How far a tape laid over open ground may be off: a share of its length, and never less than this (common practice, no source). */
export const tapeShare = 0.01;
export const tapeLeastM = 0.02;
export const tapeToleranceM = (lengthM: number): number => Math.max(tapeShare * lengthM, tapeLeastM);

/** Tapes that cross flatter than this place a thing badly (common practice, no source). */
export const flattestCrossingDeg = 30;

/** As seen by someone who looks from the first point to the second. */
export type Side = 'left' | 'right' | 'between';

export interface TapePlace {
  readonly point: Point2;
  readonly side: Side;
}

export type TapeOutcome =
  /** One place where the circles only touch, else two, left of the line first. */
  | {
      readonly kind: 'met';
      readonly places: readonly TapePlace[];
      /** The angle at which the two tapes cross at the place. */
      readonly crossingDeg: number;
      /** An estimate of how far the true place may be off. */
      readonly errorM: number;
      readonly flat: boolean;
    }
  /** Together shorter than the way between the points. */
  | { readonly kind: 'too_short'; readonly missingM: number; readonly explained: boolean }
  /** One so long that its end lies beyond all that the other reaches: the shorter would have to be longer. */
  | { readonly kind: 'too_unequal'; readonly missingM: number; readonly explained: boolean }
  | { readonly kind: 'same_point' };

const roundingM = 1e-9;

export function placeByTapes(a: Point2, b: Point2, fromAM: number, fromBM: number): TapeOutcome {
  const apartM = distance(a, b);
  if (!(apartM > 1e-6)) return { kind: 'same_point' };
  const slackM = tapeToleranceM(fromAM) + tapeToleranceM(fromBM);
  const shortM = apartM - fromAM - fromBM;
  if (shortM > roundingM) return { kind: 'too_short', missingM: shortM, explained: shortM <= slackM };
  const beyondM = Math.abs(fromAM - fromBM) - apartM;
  if (beyondM > roundingM) return { kind: 'too_unequal', missingM: beyondM, explained: beyondM <= slackM };

  const [left, right] = meet(a, b, fromAM, fromBM);
  const touching = distance(left, right) < 2e-6;
  const places: readonly TapePlace[] = touching ? [{ point: left, side: 'between' }] : [{ point: left, side: 'left' }, { point: right, side: 'right' }];
  const crossingDeg = crossingDegOf(apartM, fromAM, fromBM);
  const flat = crossingDeg < flattestCrossingDeg || crossingDeg > 180 - flattestCrossingDeg;
  return { kind: 'met', places, crossingDeg, errorM: errorMOf(a, b, fromAM, fromBM, crossingDeg, flat), flat };
}

/** Where the circles meet, left first; where they just miss, the place nearest to both, twice. */
function meet(a: Point2, b: Point2, fromAM: number, fromBM: number): readonly [Point2, Point2] {
  const apartM = distance(a, b);
  const [ux, uy] = [(b[0] - a[0]) / apartM, (b[1] - a[1]) / apartM];
  const along = (fromAM * fromAM - fromBM * fromBM + apartM * apartM) / (2 * apartM);
  const aside = Math.sqrt(Math.max(0, fromAM * fromAM - along * along));
  const foot: Point2 = [a[0] + along * ux, a[1] + along * uy];
  return [
    [foot[0] - aside * uy, foot[1] + aside * ux],
    [foot[0] + aside * uy, foot[1] - aside * ux],
  ];
}

// Law of cosines at the place.
function crossingDegOf(apartM: number, fromAM: number, fromBM: number): number {
  const cosine = (fromAM * fromAM + fromBM * fromBM - apartM * apartM) / (2 * fromAM * fromBM);
  return (Math.acos(Math.min(1, Math.max(-1, cosine))) * 180) / Math.PI;
}

/**
 * Both tapes off by t1 and t2, neither knowing of the other: sqrt(t1² + t2²) / sin(crossing angle), from the linearised
 * circles (dr = u . dp for each tape, u its direction; the trace of the inverse of their normal matrix is
 * (t1² + t2²) / sin²). Where the tapes lie nearly in line that grows beyond all bounds, so there it goes no further than
 * the farthest place that tapes which are off by their tolerance could have meant.
 */
function errorMOf(a: Point2, b: Point2, fromAM: number, fromBM: number, crossingDeg: number, flat: boolean): number {
  const [offA, offB] = [tapeToleranceM(fromAM), tapeToleranceM(fromBM)];
  const linear = Math.hypot(offA, offB) / Math.sin((crossingDeg * Math.PI) / 180);
  if (!flat) return linear;
  const [meant] = meet(a, b, fromAM, fromBM);
  const farthest = [[1, 1], [1, -1], [-1, 1], [-1, -1]].map(([signA, signB]) => distance(meant, meet(a, b, fromAM + signA! * offA, fromBM + signB! * offB)[0]));
  return Math.min(linear, Math.max(...farthest));
}
