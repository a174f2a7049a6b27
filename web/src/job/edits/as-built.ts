// SPDX-License-Identifier: Apache-2.0
// Recording how a joint was built before the trench is closed: connector, two tapes, depth, picture, done; and which
// buried joints still lack what a later digger needs.
import type { AsBuilt, FixedPoint, JobDocument, Joint, Point2 } from '../document';
import type { Command } from '../operations';
import { distance } from './geometry';
import { moveChanges } from './move';
import { placeByTapes } from './tape';

const nameOf = ({ id, name }: Joint): string => name || id;

/** Sets parts of the record; undefined takes one away. `recorded`: when it was measured. */
export function recordJoint(joint: Joint, change: { readonly [K in keyof AsBuilt]?: AsBuilt[K] | undefined }, recorded: string): Command {
  const next = { ...joint.as_built, ...change, recorded };
  const value = Object.fromEntries(Object.entries(next).filter(([, part]) => part !== undefined));
  return { label: `Record of ${nameOf(joint)}`, changes: [{ op: 'set', path: ['joints', { id: joint.id }, 'as_built'], value }] };
}

export const setConnector = (joint: Joint, connector: string | undefined): Command => ({
  label: `Connector of ${nameOf(joint)}`,
  changes: [{ op: 'set', path: ['joints', { id: joint.id }, 'connector'], value: connector }],
});

/** What a record still lacks, in words; none: the joint may be covered. */
export function lacksOf({ connector, as_built }: Joint): readonly string[] {
  const record = as_built ?? {};
  const tapes = record.fixed_point_1 && record.fixed_point_2 && record.fixed_point_1 !== record.fixed_point_2 && record.offset_1_m !== undefined && record.offset_2_m !== undefined;
  return [
    !connector && 'connector',
    !tapes && 'two tapes from two fixed points',
    record.depth_m === undefined && 'depth',
    (record.pictures ?? []).length === 0 && 'picture',
    record.done !== true && 'done mark',
  ].filter((word) => word !== false);
}

export interface Unrecorded {
  readonly joint: Joint;
  readonly lacks: readonly string[];
}

/** The buried joints that keep the trench open. */
export const unrecorded = (job: JobDocument): readonly Unrecorded[] =>
  (job.joints ?? []).filter(({ buried }) => buried !== false).map((joint) => ({ joint, lacks: lacksOf(joint) })).filter(({ lacks }) => lacks.length > 0);

/** Where the tapes say that a joint lies, on the side of the line on which the plan has it; undefined: they do not say. */
export function tapedPlace(job: JobDocument, joint: Joint): { readonly point: Point2; readonly offM: number | undefined } | undefined {
  const { fixed_point_1, fixed_point_2, offset_1_m, offset_2_m } = joint.as_built ?? {};
  const point = (id: string | undefined): FixedPoint | undefined => job.plan?.fixed_points?.find((one) => one.id === id);
  const [a, b] = [point(fixed_point_1), point(fixed_point_2)];
  if (!a || !b || offset_1_m === undefined || offset_2_m === undefined) return undefined;
  const met = placeByTapes(a.position, b.position, offset_1_m, offset_2_m);
  if (met.kind !== 'met') return undefined;
  const planned = joint.position;
  const far = (place: Point2): number => (planned ? distance(planned, place) : 0);
  const nearest = met.places.map((place) => place.point).reduce((best, next) => (far(next) < far(best) ? next : best));
  return { point: nearest, offM: planned && far(nearest) };
}

/** Moves a joint to where it was built; cables follow, and volts with them. */
export function moveToTapes(job: JobDocument, joint: Joint, to: Point2): Command {
  const changes = joint.position
    ? moveChanges(job, [{ kind: 'joint', id: joint.id }], [to[0] - joint.position[0], to[1] - joint.position[1]])
    : [{ op: 'set' as const, path: ['joints', { id: joint.id }, 'position'], value: to }];
  return { label: `${nameOf(joint)} to where it was built`, changes };
}
