// SPDX-License-Identifier: Apache-2.0
// Snapping: the place meant by a hand that is a few millimetres off. What is found is shown and named before release, and
// what is shown is what is taken. Places win over lines, lines over directions; of equals the nearest.
import type { JobDocument, Point2, Polyline } from '../../job/document';
import { nameOf, placeOf, thingsOf, type ThingKind } from '../../job/lookup';
import { angleDegOf, distance, nearestOnStretch, polar } from '../../job/edits/geometry';
import type { ThingRef } from '../../job/edits/move';
import { routesOf } from '../../job/edits/routes';

export interface Snap {
  readonly point: Point2;
  /** What was found, in words: "end of bed", "middle of drive", "45°". */
  readonly name: string;
  /** The thing that was found, if it is one. */
  readonly ref?: ThingRef;
  /** A line to show: from where the direction is taken. */
  readonly guide?: readonly [Point2, Point2];
}

export interface SnapWish {
  readonly job: JobDocument;
  readonly at: Point2;
  readonly radiusM: number;
  /** The last point of what is being drawn: directions are counted from it. */
  readonly from?: Point2 | undefined;
  readonly takes: (kind: ThingKind) => boolean;
  /** What is being moved cannot be snapped to. */
  readonly without?: ReadonlySet<string>;
}

export const keyOf = ({ kind, id }: ThingRef): string => `${kind}/${id}`;
export const directionStepDeg = 15;

export function snap(wish: SnapWish): Snap | undefined {
  const own: Snap[] = [];
  const places: Snap[] = [];
  const lines: Snap[] = [];
  const routes = routesOf(wish.job);
  for (const thing of thingsOf(wish.job)) {
    const ref = { kind: thing.kind, id: thing.value.id };
    if (thing.kind === 'output' || !wish.takes(thing.kind) || wish.without?.has(keyOf(ref))) continue;
    const place = placeOf(thing);
    if (place) own.push({ point: place, name: nameOf(thing), ref });
    if (thing.kind === 'area') outline(places, lines, thing.value.outline, true, areaName(thing.value.kind), ref, wish);
    if (thing.kind === 'sleeve') outline(places, lines, thing.value.path ?? [], false, 'sleeve', ref, wish);
    if (thing.kind === 'cable') outline(places, lines, routes.get(thing.value.id) ?? [], false, 'cable', ref, wish);
  }
  outline(places, lines, wish.job.plan?.property_line ?? [], true, 'property line', undefined, wish);
  // Of a lamp and the end of its cable the lamp comes first: it is earlier in the row.
  return nearest([...own, ...places], wish) ?? crossing(wish, lines) ?? nearest(lines, wish) ?? direction(wish);
}

const areaName = (kind: string): string => kind.replace('_', ' ');

function outline(places: Snap[], lines: Snap[], points: Polyline, closed: boolean, name: string, ref: ThingRef | undefined, wish: SnapWish): void {
  const with_ = ref ? { ref } : {};
  const count = closed ? points.length : points.length - 1;
  points.forEach((point) => places.push({ point, name: `${closed ? 'corner' : 'end'} of ${name}`, ...with_ }));
  for (let i = 0; i < count; i += 1) {
    const [a, b] = [points[i]!, points[(i + 1) % points.length]!];
    places.push({ point: [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2], name: `middle of ${name}`, ...with_ });
    const on = nearestOnStretch(a, b, wish.at);
    if (distance(on, wish.at) <= wish.radiusM) lines.push({ point: on, name: `on ${closed ? 'edge' : 'line'} of ${name}`, ...with_, guide: [a, b] });
  }
}

function nearest(found: readonly Snap[], { at, radiusM }: SnapWish): Snap | undefined {
  let best: Snap | undefined;
  let bestM = radiusM;
  for (const one of found) {
    const away = distance(one.point, at);
    // Rounding must not decide between two that lie on one another.
    if (away < bestM - 1e-9 || (!best && away <= bestM)) [best, bestM] = [one, away];
  }
  return best;
}

/** The direction nearest to the hand's, in steps of 15 degrees, as far out as the hand is. */
function direction({ at, from, radiusM }: SnapWish): Snap | undefined {
  if (!from || distance(from, at) < radiusM) return undefined;
  const turn = Math.round(angleDegOf(from, at) / directionStepDeg) * directionStepDeg;
  const along = (at[0] - from[0]) * Math.cos((turn * Math.PI) / 180) + (at[1] - from[1]) * Math.sin((turn * Math.PI) / 180);
  const point = polar(from, along, turn);
  if (distance(point, at) > radiusM / 2) return undefined;
  const shown = ((turn % 180) + 180) % 180;
  return { point, name: `${shown}°`, guide: [from, point] };
}

/** Where a direction from the last point meets a line that is near. */
function crossing(wish: SnapWish, lines: readonly Snap[]): Snap | undefined {
  const way = direction(wish);
  if (!way?.guide) return undefined;
  for (const line of lines) {
    const point = line.guide && meet(way.guide[0], way.point, ...line.guide);
    if (point && distance(point, wish.at) <= wish.radiusM) {
      return { point, name: `${way.name} ${line.name}`, guide: [way.guide[0], point], ...(line.ref && { ref: line.ref }) };
    }
  }
  return undefined;
}

function meet(a: Point2, b: Point2, c: Point2, d: Point2): Point2 | undefined {
  const [rx, ry, sx, sy] = [b[0] - a[0], b[1] - a[1], d[0] - c[0], d[1] - c[1]];
  const cross = rx * sy - ry * sx;
  if (Math.abs(cross) < 1e-12) return undefined;
  const t = ((c[0] - a[0]) * sy - (c[1] - a[1]) * sx) / cross;
  return [a[0] + t * rx, a[1] + t * ry];
}
