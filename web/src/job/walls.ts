// SPDX-License-Identifier: Apache-2.0
// Faces of the plan: each edge of a building or a wall, with its left and right end as seen from outside.
import type { JobDocument, Point2, Point3 } from './document';
import { quantityText, type UnitSystem } from '../units/quantity';

export interface PlanWall {
  /** Area and edge: "house/0". */
  readonly id: string;
  readonly areaName: string;
  readonly left: Point2;
  readonly right: Point2;
  readonly lengthM: number;
  /** Of the building, where the plan says so. */
  readonly heightM: number | undefined;
  /** Which way it faces. */
  readonly faces: Point2;
}

const shortestM = 0.5;

function signedArea(outline: readonly Point2[]): number {
  return outline.reduce((sum, [x, y], index) => {
    const [nextX, nextY] = outline[(index + 1) % outline.length]!;
    return sum + (x * nextY - nextX * y) / 2;
  }, 0);
}

/** The edges of buildings first, the longest of each first. */
export function planWalls(job: JobDocument): PlanWall[] {
  const areas = (job.plan?.areas ?? []).filter(({ kind }) => kind === 'building' || kind === 'wall');
  const walls = areas.flatMap((area) => {
    const turnsLeft = signedArea(area.outline) > 0;
    return area.outline.map((a, index): PlanWall => {
      const b = area.outline[(index + 1) % area.outline.length]!;
      // Left turns all round: outside is on the right of each edge, so that its start is the left end as seen from there.
      const [left, right] = turnsLeft ? [a, b] : [b, a];
      const lengthM = Math.hypot(right[0] - left[0], right[1] - left[1]);
      const faces: Point2 = lengthM > 0 ? [(right[1] - left[1]) / lengthM, -(right[0] - left[0]) / lengthM] : [0, -1];
      return { id: `${area.id}/${index}`, areaName: area.name || area.id, left, right, lengthM, heightM: area.height_m, faces };
    }).filter(({ lengthM }) => lengthM >= shortestM);
  });
  const isBuilding = new Set(areas.filter(({ kind }) => kind === 'building').map(({ id }) => id));
  const rank = ({ id }: PlanWall): number => (isBuilding.has(id.slice(0, id.lastIndexOf('/'))) ? 0 : 1);
  return walls.sort((a, b) => rank(a) - rank(b) || b.lengthM - a.lengthM);
}

const winds = ['north', 'north-east', 'east', 'south-east', 'south', 'south-west', 'west', 'north-west'] as const;

/** The direction in words, by the plan's north. */
export function windOf([x, y]: Point2, northDeg = 90): string {
  const clockwiseDeg = northDeg - (Math.atan2(y, x) * 180) / Math.PI;
  return winds[((Math.round(clockwiseDeg / 45) % 8) + 8) % 8]!;
}

/** "House, facing south, 16.00 m". */
export const wallWords = (wall: PlanWall, northDeg: number | undefined, units: UnitSystem): string =>
  `${wall.areaName}, facing ${windOf(wall.faces, northDeg)}, ${quantityText(wall.lengthM, 'length', units)}`;

/** The wall that a stretch lies on, within a hand's width, and how far the stretch begins from its left end. */
export function wallUnder(walls: readonly PlanWall[], left: Point3, right: Point3): { readonly wall: PlanWall; readonly offsetM: number } | undefined {
  const toleranceM = 0.1;
  for (const wall of walls) {
    const along: Point2 = [(wall.right[0] - wall.left[0]) / wall.lengthM, (wall.right[1] - wall.left[1]) / wall.lengthM];
    const places = [left, right].map(([x, y]) => {
      const [dx, dy] = [x - wall.left[0], y - wall.left[1]];
      return { alongM: dx * along[0] + dy * along[1], asideM: Math.abs(dx * along[1] - dy * along[0]) };
    });
    const [from, to] = places as [(typeof places)[number], (typeof places)[number]];
    if (places.every(({ asideM }) => asideM <= toleranceM) && to.alongM > from.alongM && from.alongM >= -toleranceM) return { wall, offsetM: Math.max(0, from.alongM) };
  }
  return undefined;
}

/** A stretch of a wall: from its left end by `offsetM`, so wide, its lower edge so high. */
export function stretchOf(wall: PlanWall, offsetM: number, widthM: number, baseM: number): { readonly left: Point3; readonly right: Point3 } {
  const along: Point2 = [(wall.right[0] - wall.left[0]) / wall.lengthM, (wall.right[1] - wall.left[1]) / wall.lengthM];
  const at = (m: number): Point3 => [wall.left[0] + along[0] * m, wall.left[1] + along[1] * m, baseM];
  return { left: at(offsetM), right: at(offsetM + widthM) };
}
