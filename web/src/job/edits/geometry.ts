// SPDX-License-Identifier: Apache-2.0
// Plane geometry for drawing: lengths along a route, the nearest point of it, cutting and joining routes. Metres.
import type { Point2, Polyline } from '../document';

export const distance = (a: readonly number[], b: readonly number[]): number => Math.hypot(a[0]! - b[0]!, a[1]! - b[1]!);

export const lengthOf = (path: Polyline): number =>
  path.slice(1).reduce((sum, point, index) => sum + distance(path[index]!, point), 0);

export const shifted = (point: Point2, [dx, dy]: Point2): Point2 => [point[0] + dx, point[1] + dy];

export const same = (a: readonly number[], b: readonly number[], withinM = 1e-6): boolean => distance(a, b) <= withinM;

export interface OnPath {
  readonly point: Point2;
  /** The stretch that it lies on, by the index of its first point. */
  readonly stretch: number;
  readonly distanceM: number;
}

/** The point of a stretch nearest to `to`. */
export function nearestOnStretch(a: Point2, b: Point2, to: Point2): Point2 {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const square = dx * dx + dy * dy;
  const share = square === 0 ? 0 : Math.min(1, Math.max(0, ((to[0] - a[0]) * dx + (to[1] - a[1]) * dy) / square));
  return [a[0] + share * dx, a[1] + share * dy];
}

/** The nearest point of a route; undefined for a route of fewer than two points. */
export function nearestOnPath(path: Polyline, to: Point2): OnPath | undefined {
  let best: OnPath | undefined;
  for (let stretch = 0; stretch + 1 < path.length; stretch += 1) {
    const point = nearestOnStretch(path[stretch]!, path[stretch + 1]!, to);
    const distanceM = distance(point, to);
    if (!best || distanceM < best.distanceM) best = { point, stretch, distanceM };
  }
  return best;
}

/** Both halves of a route that is cut at a point of it. */
export function cut(path: Polyline, { point, stretch }: OnPath): readonly [Polyline, Polyline] {
  const before = path.slice(0, stretch + 1);
  const after = path.slice(stretch + 1);
  return [
    same(before.at(-1)!, point) ? before : [...before, point],
    after.length > 0 && same(after[0]!, point) ? after : [point, ...after],
  ];
}

/** One route out of two that meet. */
export const joined = (first: Polyline, second: Polyline): Polyline =>
  first.length > 0 && second.length > 0 && same(first.at(-1)!, second[0]!) ? [...first, ...second.slice(1)] : [...first, ...second];

/** From a point, so far in that direction (degrees, counter-clockwise from the x axis). */
export function polar(from: Point2, lengthM: number, angleDeg: number): Point2 {
  const angle = (angleDeg * Math.PI) / 180;
  return [from[0] + lengthM * Math.cos(angle), from[1] + lengthM * Math.sin(angle)];
}

export const angleDegOf = (from: Point2, to: Point2): number => (Math.atan2(to[1] - from[1], to[0] - from[0]) * 180) / Math.PI;
