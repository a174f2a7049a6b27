// SPDX-License-Identifier: Apache-2.0
// Several things at once: in line, evenly spaced, copied.
import type { JobDocument, Point2 } from '../document';
import { nextName, randomId } from '../ids';
import { findThing, placeOf, type Thing } from '../lookup';
import type { Command, Operation } from '../operations';
import { evenlyAlong, type Line } from './along';
import { distance, lengthOf } from './geometry';
import { moveChanges, type ThingRef } from './move';
import { routesOf } from './routes';

interface At {
  readonly ref: ThingRef;
  readonly place: Point2;
}

const placesOf = (job: JobDocument, refs: readonly ThingRef[]): At[] =>
  refs.flatMap((ref) => {
    const thing = findThing(job, ref.id, ref.kind);
    const place = thing && thing.kind !== 'output' ? placeOf(thing) : undefined;
    return place ? [{ ref, place }] : [];
  });

/** Moves each thing to its own place, cables along. */
function moveEach(job: JobDocument, targets: readonly (readonly [At, Point2])[]): Operation[] {
  // One after the other on the same document: a cable between two of them keeps both its ends.
  const changes = new Map<string, Operation>();
  let document = job;
  for (const [{ ref, place }, to] of targets) {
    const by: Point2 = [to[0] - place[0], to[1] - place[1]];
    if (by[0] === 0 && by[1] === 0) continue;
    for (const change of moveChanges(document, [ref], by)) {
      changes.set(JSON.stringify(change.path), change);
      document = patched(document, change);
    }
  }
  return [...changes.values()];
}

// Only cables are read again by the next move, so only they are kept up to date.
function patched(job: JobDocument, change: Operation): JobDocument {
  if (change.op !== 'set' || change.path[0] !== 'cables') return job;
  const { id } = change.path[1] as { id: string };
  return { ...job, cables: (job.cables ?? []).map((cable) => (cable.id === id ? { ...cable, path: change.value as Point2[] } : cable)) };
}

/**
 * Evenly, in the order in which they lie: along the one cable, sleeve or edge of an area among them, each equally far
 * aside; else on the straight line between the two that are farthest apart.
 */
export function spaceEvenly(job: JobDocument, refs: readonly ThingRef[]): Command | undefined {
  const places = placesOf(job, refs);
  const lines = refs.flatMap((ref) => lineOf(job, ref) ?? []);
  if (lines.length === 1 && places.length >= 2) {
    const targets = evenlyAlong(lines[0]!, places.map(({ place }) => place));
    const label = `Space ${places.length} things evenly along ${lines[0]!.words}`;
    return { label, changes: moveEach(job, places.map((one, i) => [one, targets[i]!] as const)) };
  }
  if (places.length < 3) return undefined;
  const [a, b] = farthest(places);
  const along = ({ place }: At): number => (place[0] - a[0]) * (b[0] - a[0]) + (place[1] - a[1]) * (b[1] - a[1]);
  const order = [...places].sort((p, q) => along(p) - along(q));
  const share = (index: number): number => index / (order.length - 1);
  const targets = order.map((one, i) => [one, [a[0] + share(i) * (b[0] - a[0]), a[1] + share(i) * (b[1] - a[1])] as Point2] as const);
  return { label: `Space ${places.length} things evenly`, changes: moveEach(job, targets) };
}

/** Into a row (same y) or a column (same x), whichever is nearer; the mean stays. */
export function alignThings(job: JobDocument, refs: readonly ThingRef[]): Command | undefined {
  const places = placesOf(job, refs);
  if (places.length < 2) return undefined;
  const spread = (axis: 0 | 1): number => Math.max(...places.map((p) => p.place[axis])) - Math.min(...places.map((p) => p.place[axis]));
  const axis = spread(0) < spread(1) ? 0 : 1;
  const mean = places.reduce((sum, { place }) => sum + place[axis], 0) / places.length;
  const targets = places.map((one) => [one, (axis === 0 ? [mean, one.place[1]] : [one.place[0], mean]) as Point2] as const);
  return { label: `Align ${places.length} things`, changes: moveEach(job, targets) };
}

function lineOf(job: JobDocument, ref: ThingRef): (Line & { readonly words: string }) | undefined {
  const thing = findThing(job, ref.id, ref.kind);
  if (thing?.kind === 'area' && thing.value.outline.length > 2) return { path: thing.value.outline, closed: true, words: 'the edge of the area' };
  const path = thing?.kind === 'cable' ? routesOf(job).get(ref.id) : thing?.kind === 'sleeve' ? thing.value.path : undefined;
  return path && lengthOf(path) > 0 ? { path, closed: false, words: `the ${ref.kind}` } : undefined;
}

function farthest(places: readonly At[]): readonly [Point2, Point2] {
  let best: readonly [Point2, Point2] = [places[0]!.place, places[1]!.place];
  for (const { place: p } of places) for (const { place: q } of places) if (distance(p, q) > distance(...best)) best = [p, q];
  return best;
}

export interface Copied {
  readonly command: Command;
  readonly made: readonly ThingRef[];
}

const lists: Partial<Record<Thing['kind'], readonly string[]>> = {
  luminaire: ['luminaires'], area: ['plan', 'areas'], tree: ['plan', 'trees'], receptacle: ['plan', 'receptacles'],
  view_point: ['plan', 'view_points'], fixed_point: ['plan', 'fixed_points'], sleeve: ['plan', 'sleeves'],
};
const stems: Partial<Record<Thing['kind'], string>> = { luminaire: 'Light', tree: 'Tree', view_point: 'View', fixed_point: 'Point' };

/** Copies, a little aside. Lights come without their wiring: a copy that hung on the same joint would be a surprise. */
export function copyThings(job: JobDocument, refs: readonly ThingRef[], by: Point2): Copied | undefined {
  const made: ThingRef[] = [];
  const changes: Operation[] = [];
  const names = new Set((job.luminaires ?? []).map(({ name }) => name));
  for (const ref of refs) {
    const thing = findThing(job, ref.id, ref.kind);
    const path = thing && lists[thing.kind];
    if (!thing || !path) continue;
    const id = randomId(thing.kind === 'luminaire' ? 'light' : thing.kind.replace('_', '-'));
    const copy: Record<string, unknown> = { ...thing.value, id };
    delete copy.joint;
    const stem = stems[thing.kind];
    if (stem && copy.name !== undefined) {
      copy.name = nextName(stem, names);
      names.add(copy.name as string);
    }
    for (const key of ['outline', 'path'] as const) {
      if (Array.isArray(copy[key])) copy[key] = (copy[key] as Point2[]).map(([x, y]) => [x + by[0], y + by[1]]);
    }
    const position = copy.position as readonly number[] | undefined;
    if (position) copy.position = [position[0]! + by[0], position[1]! + by[1], ...position.slice(2)];
    made.push({ kind: thing.kind, id });
    changes.push({ op: 'insert', path, value: copy });
  }
  if (made.length === 0) return undefined;
  return { command: { label: made.length === 1 ? 'Copy' : `Copy ${made.length} things`, changes }, made };
}
