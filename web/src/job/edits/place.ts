// SPDX-License-Identifier: Apache-2.0
// Placing new things. A job carries its own copy of each item that it uses.
import { withItem } from '../catalogue';
import type {
  CableItem, JobDocument, JointKind, LuminaireItem, Point2, Point3, Polyline, Transformer, TransformerItem,
} from '../document';
import { nextName, randomId } from '../ids';
import { endsOf, findThing } from '../lookup';
import type { Command, Operation } from '../operations';
import { cut, lengthOf, nearestOnPath, same } from './geometry';
import type { ThingRef } from './move';
import { routesOf } from './routes';

export interface Placed {
  readonly command: Command;
  readonly made: ThingRef;
}

export function placeLuminaire(job: JobDocument, item: LuminaireItem, at: Point2 | Point3, azimuthDeg?: number): Placed {
  const id = randomId('light');
  const name = nextName('Light', (job.luminaires ?? []).map((lamp) => lamp.name));
  const value = {
    id,
    name,
    item: item.id,
    position: [at[0], at[1], at[2] ?? item.mounting_height_m ?? 0],
    ...(azimuthDeg !== undefined && { azimuth_deg: azimuthDeg }),
  };
  const changes: Operation[] = [...withItem(job, 'luminaires', item), { op: 'insert', path: ['luminaires'], value }];
  return { command: { label: `Place ${name}`, changes }, made: { kind: 'luminaire', id } };
}

/** With all its outputs, each on the lowest tap. */
export function placeTransformer(job: JobDocument, item: TransformerItem, at: Point2): Placed {
  const id = randomId('transformer');
  const name = nextName('Transformer', (job.transformers ?? []).map((one) => one.name));
  const tap_v = Math.min(...item.taps_v);
  const outputs = Array.from({ length: item.output_count ?? 1 }, (_, index) => ({
    id: `${id}-${String.fromCharCode(97 + index)}`,
    tap_v,
    ...(item.output_limit_a !== undefined && { limit_a: item.output_limit_a }),
  }));
  const value: Transformer = { id, name, item: item.id, position: at, mounting: 'wall', outputs };
  const changes: Operation[] = [...withItem(job, 'transformers', item), { op: 'insert', path: ['transformers'], value }];
  return { command: { label: `Place ${name}`, changes }, made: { kind: 'transformer', id } };
}

/** Where a cable being drawn may begin or end: at a thing, on another cable, or on open ground. */
export type CableEnd =
  | { readonly at: 'end'; readonly id: string; readonly point: Point2 }
  | { readonly at: 'cable'; readonly id: string; readonly point: Point2 }
  | { readonly at: 'ground'; readonly point: Point2 };

interface Fastened {
  readonly id: string;
  readonly changes: readonly Operation[];
}

function newJoint(job: JobDocument, kind: JointKind, position: Point2): { id: string; change: Operation } {
  const id = randomId('joint');
  const name = nextName('Joint', (job.joints ?? []).map((one) => one.name));
  return { id, change: { op: 'insert', path: ['joints'], value: { id, name, kind, position, buried: true } } };
}

/** A cable cut in two by a joint on its route: where another can branch off. */
export function splitCable(job: JobDocument, cableId: string, near: Point2): Fastened | undefined {
  const cable = job.cables?.find(({ id }) => id === cableId);
  const route = routesOf(job).get(cableId);
  const on = route && nearestOnPath(route, near);
  if (!cable || !on) return undefined;
  const [first, second] = cut(route, on);
  const joint = newJoint(job, 'branch', on.point);
  // A measured length is shared out as the route is.
  const share = lengthOf(first) / Math.max(1e-9, lengthOf(route));
  const at: Operation['path'] = ['cables', { id: cableId }];
  const rest = {
    ...cable,
    id: randomId('cable'),
    from: joint.id,
    path: second,
    ...(cable.length_m !== undefined && { length_m: cable.length_m * (1 - share) }),
  };
  delete (rest as { slack_from_m?: number }).slack_from_m;
  const changes: Operation[] = [
    joint.change,
    { op: 'set', path: [...at, 'to'], value: joint.id },
    { op: 'set', path: [...at, 'path'], value: first },
    { op: 'set', path: [...at, 'slack_to_m'], value: undefined },
    ...(cable.length_m !== undefined ? [{ op: 'set', path: [...at, 'length_m'], value: cable.length_m * share } as const] : []),
    { op: 'insert', path: ['cables'], value: rest },
  ];
  return { id: joint.id, changes };
}

function fasten(job: JobDocument, end: CableEnd): Fastened | undefined {
  if (end.at === 'end') return { id: end.id, changes: [] };
  if (end.at === 'cable') return splitCable(job, end.id, end.point);
  const joint = newJoint(job, 'end_of_run', end.point);
  return { id: joint.id, changes: [joint.change] };
}

/** A cable along a route from one end to the other. Undefined where both are the same, or one is gone. */
export function layCable(job: JobDocument, item: CableItem, from: CableEnd, bends: Polyline, to: CableEnd): Placed | undefined {
  if (from.at !== 'ground' && from.at === to.at && from.id === to.id) return undefined;
  const start = fasten(job, from);
  const finish = fasten(job, to);
  if (!start || !finish) return undefined;
  const id = randomId('cable');
  const path = [from.point, ...bends, to.point].filter((point, index, all) => index === 0 || !same(point, all[index - 1]!));
  if (path.length < 2) return undefined;
  const value = { id, item: item.id, from: start.id, to: finish.id, path };
  const changes: Operation[] = [
    ...withItem(job, 'cables', item),
    ...start.changes,
    ...finish.changes,
    { op: 'insert', path: ['cables'], value },
  ];
  return { command: { label: 'Lay a cable', changes }, made: { kind: 'cable', id } };
}

/** The end that stands for a thing on the plan: of a transformer, the output with the fewest cables. */
export function cableEndOf(job: JobDocument, ref: ThingRef, near: Point2): CableEnd | undefined {
  if (ref.kind === 'cable') {
    const route = routesOf(job).get(ref.id);
    const on = route && nearestOnPath(route, near);
    return on && { at: 'cable', id: ref.id, point: on.point };
  }
  const thing = findThing(job, ref.id, ref.kind);
  if (thing?.kind === 'transformer') {
    const used = (id: string): number => (job.cables ?? []).filter(({ from, to }) => from === id || to === id).length;
    const output = [...thing.value.outputs].sort((a, b) => used(a.id) - used(b.id))[0];
    return output && thing.value.position && { at: 'end', id: output.id, point: thing.value.position };
  }
  const place = endsOf(job).get(ref.id);
  return place && { at: 'end', id: ref.id, point: place };
}
