// SPDX-License-Identifier: Apache-2.0
// The scale of the picture beneath the plan: set from two points, checked by a second known distance, and what is drawn
// taken along where that is asked for. Metres.
import type { JobDocument, Point2 } from '../document';
import { thingsOf, type Thing } from '../lookup';
import type { Command, Operation } from '../operations';
import { distance } from './geometry';
import { tapeToleranceM } from './tape';

export interface ScaleWish {
  readonly a: Point2;
  readonly b: Point2;
  /** The true distance of the two points. */
  readonly lengthM: number;
  /** Whether what is drawn is enlarged with the picture; else it stays on the ground. */
  readonly withDrawing: boolean;
}

/** The picture enlarged so that the two points are `lengthM` apart; the first stays where it is. */
export function setScale(job: JobDocument, { a, b, lengthM, withDrawing }: ScaleWish): Command | undefined {
  const underlay = job.plan?.underlay;
  const shownM = distance(a, b);
  if (!underlay || !(shownM > 0) || !(lengthM > 0)) return undefined;
  const factor = lengthM / shownM;
  const changes: Operation[] = [
    { op: 'set', path: ['plan', 'underlay', 'm_per_px'], value: underlay.m_per_px * factor },
    { op: 'set', path: ['plan', 'underlay', 'origin'], value: enlarged(underlay.origin ?? [0, 0], a, factor) },
    ...(withDrawing ? drawingChanges(job, a, factor) : []),
  ];
  return { label: withDrawing ? "Set the picture's scale, drawing along" : "Set the picture's scale", changes };
}

export interface ScaleCheck {
  readonly shownM: number;
  readonly lengthM: number;
  /** How much the picture shows too much; below zero: too little. */
  readonly offPct: number;
  /** Whether a tape read as well as tapes are could be off by as much. */
  readonly withinTape: boolean;
}

export function checkScale(a: Point2, b: Point2, lengthM: number): ScaleCheck | undefined {
  const shownM = distance(a, b);
  if (!(shownM > 0) || !(lengthM > 0)) return undefined;
  return { shownM, lengthM, offPct: (shownM / lengthM - 1) * 100, withinTape: Math.abs(shownM - lengthM) <= tapeToleranceM(lengthM) };
}

/** Half way between the scale as it is and the one that this distance asks for. */
export function meanScale(job: JobDocument, wish: ScaleWish): Command | undefined {
  if (!(wish.lengthM > 0)) return undefined;
  const command = setScale(job, { ...wish, lengthM: (distance(wish.a, wish.b) + wish.lengthM) / 2 });
  return command && { ...command, label: `Take the mean of two scales${wish.withDrawing ? ', drawing along' : ''}` };
}

const enlarged = (point: Point2, about: Point2, factor: number): Point2 => [
  about[0] + (point[0] - about[0]) * factor,
  about[1] + (point[1] - about[1]) * factor,
];

/** Places, outlines and routes. What was measured as a length, height or depth stays what it was measured. */
function drawingChanges(job: JobDocument, about: Point2, factor: number): Operation[] {
  const changes = [...thingsOf(job)].flatMap((thing) => thingChanges(thing, about, factor));
  const line = job.plan?.property_line;
  if (line) changes.push({ op: 'set', path: ['plan', 'property_line'], value: line.map((point) => enlarged(point, about, factor)) });
  return changes;
}

function thingChanges(thing: Thing, about: Point2, factor: number): Operation[] {
  // An output is drawn where its transformer is.
  if (thing.kind === 'output') return [];
  const { position, path, outline } = thing.value as { position?: readonly number[]; path?: readonly Point2[]; outline?: readonly Point2[] };
  const set = (key: string, value: unknown): Operation => ({ op: 'set', path: [...thing.path, key], value });
  const row = (points: readonly Point2[]): Point2[] => points.map((point) => enlarged(point, about, factor));
  return [
    ...(position ? [set('position', [...enlarged([position[0]!, position[1]!], about, factor), ...position.slice(2)])] : []),
    ...(path ? [set('path', row(path))] : []),
    ...(outline ? [set('outline', row(outline))] : []),
  ];
}
