// SPDX-License-Identifier: Apache-2.0
// Even spacing along a line: where each thing stands along it, and where it goes. The line is a cable, a sleeve or the
// edge of an area, straight or not.
import type { Point2, Polyline } from '../document';
import { distance, lengthOf, nearestOnPath } from './geometry';

export interface Line {
  readonly path: Polyline;
  /** An outline: it ends where it begins, and that place is no better than any other. */
  readonly closed: boolean;
}

interface Station {
  readonly index: number;
  readonly alongM: number;
  /** To the left of the line, right where negative. */
  readonly asideM: number;
}

/** The new places, in the order of `places`: evenly from the first to the last along the line, all equally far aside. */
export function evenlyAlong(line: Line, places: readonly Point2[]): readonly Point2[] {
  const path = line.closed ? [...line.path, line.path[0]!] : line.path;
  const total = lengthOf(path);
  const stations = places.map((place, index) => stationOf(path, place, index)).sort((p, q) => p.alongM - q.alongM);
  const order = line.closed ? openedAtWidestGap(stations, total) : stations;
  const first = order[0]!.alongM;
  const stepM = (order.at(-1)!.alongM - first) / (order.length - 1);
  const asideM = median(order.map((station) => station.asideM));
  const targets: Point2[] = [];
  order.forEach(({ index }, turn) => {
    targets[index] = pointBeside(path, (first + turn * stepM) % (line.closed ? total : Infinity), asideM);
  });
  return targets;
}

function stationOf(path: Polyline, place: Point2, index: number): Station {
  const { point, stretch } = nearestOnPath(path, place)!;
  const [a, b] = [path[stretch]!, path[stretch + 1]!];
  const side = Math.sign((b[0] - a[0]) * (place[1] - a[1]) - (b[1] - a[1]) * (place[0] - a[0]));
  return { index, alongM: lengthOf(path.slice(0, stretch + 1)) + distance(a, point), asideM: side * distance(point, place) };
}

// Round an outline, the row begins behind the stretch that has no thing for longest.
function openedAtWidestGap(stations: readonly Station[], totalM: number): readonly Station[] {
  const gapBefore = (i: number): number =>
    i === 0 ? stations[0]!.alongM + totalM - stations.at(-1)!.alongM : stations[i]!.alongM - stations[i - 1]!.alongM;
  const start = stations.reduce((best, _, i) => (gapBefore(i) > gapBefore(best) ? i : best), 0);
  return [...stations.slice(start), ...stations.slice(0, start).map((one) => ({ ...one, alongM: one.alongM + totalM }))];
}

const median = (values: readonly number[]): number => {
  const sorted = [...values].sort((p, q) => p - q);
  const middle = (sorted.length - 1) / 2;
  return (sorted[Math.floor(middle)]! + sorted[Math.ceil(middle)]!) / 2;
};

function pointBeside(path: Polyline, alongM: number, asideM: number): Point2 {
  let left = alongM;
  for (let stretch = 0; stretch + 1 < path.length; stretch += 1) {
    const [a, b] = [path[stretch]!, path[stretch + 1]!];
    const lengthM = distance(a, b);
    const isLast = stretch + 2 === path.length;
    if (lengthM > 0 && (left <= lengthM || isLast)) {
      const [ux, uy] = [(b[0] - a[0]) / lengthM, (b[1] - a[1]) / lengthM];
      return [a[0] + left * ux - asideM * uy, a[1] + left * uy + asideM * ux];
    }
    left -= lengthM;
  }
  return path.at(-1)!;
}
