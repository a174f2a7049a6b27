// SPDX-License-Identifier: Apache-2.0
// The view of the plan: which part of the garden is on the screen. Site metres have y up, pixels y down. Transforms
// are named target-from-source.
import type { Point2 } from '../job/document';

export interface PlanFrame {
  /** Site point in the middle of the screen. */
  readonly centre: Point2;
  readonly pxPerM: number;
  readonly widthPx: number;
  readonly heightPx: number;
}

export const leastPxPerM = 0.5;
export const mostPxPerM = 2000;

export function pxFromSite(frame: PlanFrame, [x, y]: Point2): Point2 {
  return [
    frame.widthPx / 2 + (x - frame.centre[0]) * frame.pxPerM,
    frame.heightPx / 2 - (y - frame.centre[1]) * frame.pxPerM,
  ];
}

export function siteFromPx(frame: PlanFrame, [x, y]: Point2): Point2 {
  return [
    frame.centre[0] + (x - frame.widthPx / 2) / frame.pxPerM,
    frame.centre[1] - (y - frame.heightPx / 2) / frame.pxPerM,
  ];
}

export function pannedBy(frame: PlanFrame, dxPx: number, dyPx: number): PlanFrame {
  return { ...frame, centre: [frame.centre[0] - dxPx / frame.pxPerM, frame.centre[1] + dyPx / frame.pxPerM] };
}

/** Zooms about a point of the screen that stays where it is. */
export function zoomedAt(frame: PlanFrame, atPx: Point2, factor: number): PlanFrame {
  const pxPerM = Math.min(mostPxPerM, Math.max(leastPxPerM, frame.pxPerM * factor));
  const fixed = siteFromPx(frame, atPx);
  const zoomed = { ...frame, pxPerM };
  const moved = siteFromPx(zoomed, atPx);
  return { ...zoomed, centre: [frame.centre[0] + fixed[0] - moved[0], frame.centre[1] + fixed[1] - moved[1]] };
}

/** Shows all of `points` with a margin; a garden of 30 m where there are none. */
export function fittedTo(frame: PlanFrame, points: readonly Point2[], marginPx = 48): PlanFrame {
  if (points.length === 0) return fittedTo(frame, [[-15, -10], [15, 10]], 0);
  const xs = points.map(([x]) => x);
  const ys = points.map(([, y]) => y);
  const [left, right] = [Math.min(...xs), Math.max(...xs)];
  const [bottom, top] = [Math.min(...ys), Math.max(...ys)];
  const room = (px: number): number => Math.max(40, px - 2 * marginPx);
  const pxPerM = Math.min(room(frame.widthPx) / Math.max(2, right - left), room(frame.heightPx) / Math.max(2, top - bottom));
  return {
    ...frame,
    centre: [(left + right) / 2, (bottom + top) / 2],
    pxPerM: Math.min(mostPxPerM, Math.max(leastPxPerM, pxPerM)),
  };
}

/** The picture's transform: site units to pixels, for a group that draws in metres with y up. */
export function svgFromSite(frame: PlanFrame): string {
  const [x, y] = pxFromSite(frame, [0, 0]);
  return `matrix(${frame.pxPerM} 0 0 ${-frame.pxPerM} ${x} ${y})`;
}

/** A round length for the scale bar, between 60 and 150 px. */
export function scaleBarM(pxPerM: number, mPerUnit: number): number {
  const target = 100 / pxPerM / mPerUnit;
  const power = 10 ** Math.floor(Math.log10(target));
  const step = [1, 2, 5, 10].reduce((best, n) => (Math.abs(n * power - target) < Math.abs(best * power - target) ? n : best), 1);
  return step * power * mPerUnit;
}
