// SPDX-License-Identifier: Apache-2.0
// Moving things: what hangs on them follows. A route's end stays at its lamp or joint, a route whose two ends move goes
// along whole; a measured length (length_m) stays what it was measured.
import type { JobDocument, Point2, Polyline } from '../document';
import { findThing, type Thing, type ThingKind } from '../lookup';
import type { Operation } from '../operations';
import { shifted } from './geometry';
import { endIdsOf } from './routes';

export interface ThingRef {
  readonly kind: ThingKind;
  readonly id: string;
}

export function moveChanges(job: JobDocument, refs: readonly ThingRef[], by: Point2): Operation[] {
  const changes = refs.flatMap((ref) => {
    const thing = findThing(job, ref.id, ref.kind);
    return thing ? moveOne(thing, by) : [];
  });
  const ends = new Set(refs.flatMap(({ kind, id }) => endIdsOf(job, kind, id)));
  const chosen = new Set(refs.filter(({ kind }) => kind === 'cable').map(({ id }) => id));
  for (const cable of job.cables ?? []) {
    const path = cable.path;
    if (!path || path.length < 2 || chosen.has(cable.id)) continue;
    const moved = movedRoute(path, ends.has(cable.from), ends.has(cable.to), by);
    if (moved !== path) changes.push({ op: 'set', path: ['cables', { id: cable.id }, 'path'], value: moved });
  }
  return changes;
}

function movedRoute(path: Polyline, first: boolean, last: boolean, by: Point2): Polyline {
  if (first && last) return path.map((point) => shifted(point, by));
  if (first) return [shifted(path[0]!, by), ...path.slice(1)];
  return last ? [...path.slice(0, -1), shifted(path.at(-1)!, by)] : path;
}

const set = (thing: Thing, key: string, value: unknown): Operation => ({ op: 'set', path: [...thing.path, key], value });

function moveOne(thing: Thing, by: Point2): Operation[] {
  switch (thing.kind) {
    case 'area':
      return [set(thing, 'outline', thing.value.outline.map((point) => shifted(point, by)))];
    case 'sleeve':
      return thing.value.path ? [set(thing, 'path', thing.value.path.map((point) => shifted(point, by)))] : [];
    case 'cable':
      // The ends stay where they are fastened.
      return thing.value.path && thing.value.path.length > 2
        ? [set(thing, 'path', thing.value.path.map((point, i, all) => (i === 0 || i === all.length - 1 ? point : shifted(point, by))))]
        : [];
    case 'output':
      return [];
    default: {
      const position = thing.value.position as readonly number[] | undefined;
      if (!position) return [];
      return [set(thing, 'position', [position[0]! + by[0], position[1]! + by[1], ...position.slice(2)])];
    }
  }
}

/** Moves one corner of a route or outline. */
export function vertexChanges(job: JobDocument, ref: ThingRef, index: number, to: Point2): Operation[] {
  const thing = findThing(job, ref.id, ref.kind);
  if (!thing) return [];
  const [key, points] = cornersOf(thing);
  return key === undefined ? [] : [set(thing, key, points.with(index, to))];
}

/** Puts a corner in behind that index, or takes one out where the shape keeps enough of them. */
export function cornerInserted(job: JobDocument, ref: ThingRef, behind: number, at: Point2): Operation[] {
  const thing = findThing(job, ref.id, ref.kind);
  if (!thing) return [];
  const [key, points] = cornersOf(thing);
  return key === undefined ? [] : [set(thing, key, points.toSpliced(behind + 1, 0, at))];
}

export function cornerRemoved(job: JobDocument, ref: ThingRef, index: number): Operation[] {
  const thing = findThing(job, ref.id, ref.kind);
  if (!thing) return [];
  const [key, points] = cornersOf(thing);
  const fewest = thing.kind === 'area' ? 3 : 2;
  const isEnd = thing.kind === 'cable' && (index === 0 || index === points.length - 1);
  return key === undefined || isEnd || points.length <= fewest ? [] : [set(thing, key, points.toSpliced(index, 1))];
}

export function cornersOf(thing: Thing): readonly [string, Polyline] | readonly [undefined, Polyline] {
  if (thing.kind === 'area') return ['outline', thing.value.outline];
  if (thing.kind === 'cable' || thing.kind === 'sleeve') return ['path', thing.value.path ?? []];
  return [undefined, []];
}
