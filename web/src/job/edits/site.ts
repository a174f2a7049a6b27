// SPDX-License-Identifier: Apache-2.0
// Drawing what is there before the lights: areas, trees, receptacles, points to measure from and to look from. Metres.
import type { GroundKind, JobDocument, Point2, Polygon } from '../document';
import { nextName, randomId } from '../ids';
import type { Command } from '../operations';
import type { ThingRef } from './move';
import type { Placed } from './place';

export const spotKinds = ['tree', 'receptacle', 'fixed_point', 'view_point'] as const;
export type SpotKind = (typeof spotKinds)[number];

/** Height of the eye of someone who stands (common practice, no source). */
const eyeHeightM = 1.6;

/** What is drawn corner by corner: areas by ground, the line of the property, a sleeve beneath a drive. */
export type OutlineKind = GroundKind | 'property_line' | 'sleeve';

export interface Drawn {
  readonly command: Command;
  /** The property line is one for the whole plan, and no thing to select. */
  readonly made?: ThingRef;
}

/** Corners that a kind needs at least. */
export const fewestCorners = (kind: OutlineKind): number => (kind === 'sleeve' ? 2 : 3);

export function drawOutline(kind: OutlineKind, corners: Polygon): Drawn | undefined {
  if (corners.length < fewestCorners(kind)) return undefined;
  if (kind === 'sleeve') {
    const id = randomId('sleeve');
    return { command: { label: 'Draw sleeve', changes: [{ op: 'insert', path: ['plan', 'sleeves'], value: { id, path: corners } }] }, made: { kind, id } };
  }
  if (kind !== 'property_line') return drawArea(kind, corners);
  if (crossesItself(corners)) return undefined;
  return { command: { label: 'Draw property line', changes: [{ op: 'set', path: ['plan', 'property_line'], value: corners }] } };
}

export function drawArea(kind: GroundKind, outline: Polygon): Placed | undefined {
  if (outline.length < 3 || crossesItself(outline)) return undefined;
  const id = randomId('area');
  const changes = [{ op: 'insert', path: ['plan', 'areas'], value: { id, kind, outline } }] as const;
  return { command: { label: `Draw ${kind.replace('_', ' ')}`, changes }, made: { kind: 'area', id } };
}

export function placeSpot(job: JobDocument, kind: SpotKind, at: Point2): Placed {
  const id = randomId(kind.replace('_', '-'));
  const named = (stem: string, list: readonly { readonly name?: string }[] | undefined) => nextName(stem, (list ?? []).map(({ name }) => name));
  const values = {
    tree: { list: 'trees', value: { id, name: named('Tree', job.plan?.trees), position: at, crown_width_m: 4 } },
    receptacle: { list: 'receptacles', value: { id, position: at } },
    fixed_point: { list: 'fixed_points', value: { id, name: named('Point', job.plan?.fixed_points), position: at } },
    view_point: { list: 'view_points', value: { id, name: named('View', job.plan?.view_points), position: [at[0], at[1], eyeHeightM] } },
  } as const;
  const { list, value } = values[kind];
  return { command: { label: `Place ${kind.replace('_', ' ')}`, changes: [{ op: 'insert', path: ['plan', list], value }] }, made: { kind, id } };
}

/** Whether two sides of an outline that are no neighbours meet. */
export function crossesItself(outline: Polygon): boolean {
  const n = outline.length;
  const side = (a: Point2, b: Point2, c: Point2): number => Math.sign((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]));
  for (let i = 0; i < n; i += 1) {
    for (let j = i + 2; j < n; j += 1) {
      if (i === 0 && j === n - 1) continue;
      const [a, b, c, d] = [outline[i]!, outline[(i + 1) % n]!, outline[j]!, outline[(j + 1) % n]!];
      if (side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0) return true;
    }
  }
  return false;
}

/** m². Shoelace formula. */
export function areaM2Of(outline: Polygon): number {
  const twice = outline.reduce((sum, [x, y], i) => {
    const [nextX, nextY] = outline[(i + 1) % outline.length]!;
    return sum + x * nextY - nextX * y;
  }, 0);
  return Math.abs(twice) / 2;
}
