// SPDX-License-Identifier: Apache-2.0
// A run as a drawing of volts against distance: the engine's volts at the ends of its cables and at its lamps, put in
// order from the output outwards. No volts are computed here; only cable lengths are added up to place what is drawn.
import type { JobDocument } from '../job/document';
import type { CableReport, LampReport, Report } from '../engine/report';

export interface Place {
  readonly distance_m: number;
  readonly voltage_v: number;
}

/** A stretch of cable between two ends, or a lamp's lead. */
export interface Stretch {
  readonly id: string;
  readonly near: Place;
  readonly far: Place;
}

/** From one lamp to the next on the same way out: the reach of its volts over all corners, drawn straight between. */
export interface Ribbon {
  readonly near: LampReport;
  readonly far: LampReport;
}

export interface Profile {
  readonly output: string;
  readonly cables: readonly Stretch[];
  readonly leads: readonly Stretch[];
  readonly ribbons: readonly Ribbon[];
  /** In order of distance, those that the engine gave volts. */
  readonly lamps: readonly LampReport[];
  /** What suits every lamp of the run; undefined where no voltage does. */
  readonly window: { readonly min_v: number; readonly max_v: number } | undefined;
}

interface Step {
  readonly end: string;
  readonly distance_m: number;
  readonly voltage_v: number | undefined;
  /** The lamp nearest to this end on the way back to the output. */
  readonly lampBefore: LampReport | undefined;
}

const isNumber = (value: number | null): value is number => value !== null && Number.isFinite(value);

export function profileOf(job: JobDocument, report: Report, output: string): Profile {
  const lamps = report.lamps
    .filter((lamp) => lamp.output === output && isNumber(lamp.nominal_v) && isNumber(lamp.worst_low_v) && isNumber(lamp.worst_high_v))
    .toSorted((a, b) => a.distance_m - b.distance_m);
  const walk = walkOut(job, report, output, lamps);
  const low = Math.max(...lamps.map((lamp) => lamp.window_min_v));
  const high = Math.min(...lamps.map((lamp) => lamp.window_max_v));
  return { output, lamps, ...walk, window: lamps.length > 0 && low < high ? { min_v: low, max_v: high } : undefined };
}

type Walk = Pick<Profile, 'cables' | 'leads' | 'ribbons'>;

// The nearest end first, so that in a loop each end lies where the shortest way puts it; every cable is drawn once.
function walkOut(job: JobDocument, report: Report, output: string, lamps: readonly LampReport[]): Walk {
  const known = report.cables.filter((cable) => isNumber(cable.from_v) && isNumber(cable.to_v));
  const touching = cablesByEnd(job, known);
  const hanging = lampsByEnd(job, lamps);
  const open: Step[] = [{ end: output, distance_m: 0, voltage_v: undefined, lampBefore: undefined }];
  const closed = new Map<string, number>();
  const cables: Stretch[] = [];
  const leads: Stretch[] = [];
  const ribbons: Ribbon[] = [];
  for (let step = open.shift(); step; step = open.shift()) {
    if (closed.has(step.end)) continue;
    closed.set(step.end, step.distance_m);
    const here = hanging.get(step.end) ?? [];
    for (const lamp of here) {
      if (step.lampBefore) ribbons.push({ near: step.lampBefore, far: lamp });
      if (step.voltage_v === undefined || lamp.id === step.end) continue;
      leads.push({ id: lamp.id, near: { distance_m: step.distance_m, voltage_v: step.voltage_v }, far: { distance_m: lamp.distance_m, voltage_v: lamp.nominal_v } });
    }
    for (const { answer, forward, other } of touching.get(step.end) ?? []) {
      const before = closed.get(other);
      const far_v = forward ? answer.to_v : answer.from_v;
      if (before === undefined) {
        open.push({ end: other, distance_m: step.distance_m + answer.length_m, voltage_v: far_v, lampBefore: here.at(-1) ?? step.lampBefore });
      } else {
        // Seen from its far end: both ends have their place now.
        cables.push(stretchOf(answer, !forward, before, step.distance_m));
      }
    }
    open.sort((a, b) => a.distance_m - b.distance_m);
  }
  return { cables, leads, ribbons };
}

interface Touching {
  readonly answer: CableReport;
  /** Whether the cable's `from` is at this end. */
  readonly forward: boolean;
  readonly other: string;
}

function cablesByEnd(job: JobDocument, reports: readonly CableReport[]): ReadonlyMap<string, readonly Touching[]> {
  const answers = new Map(reports.map((cable) => [cable.id, cable]));
  const groups = new Map<string, Touching[]>();
  for (const { id, from, to } of job.cables ?? []) {
    const answer = answers.get(id);
    if (!answer || from === to) continue;
    for (const forward of [true, false]) {
      const end = forward ? from : to;
      groups.set(end, [...(groups.get(end) ?? []), { answer, forward, other: forward ? to : from }]);
    }
  }
  return groups;
}

function stretchOf(cable: CableReport, forward: boolean, nearM: number, farM: number): Stretch {
  const [near_v, far_v] = forward ? [cable.from_v, cable.to_v] : [cable.to_v, cable.from_v];
  return { id: cable.id, near: { distance_m: nearM, voltage_v: near_v }, far: { distance_m: farM, voltage_v: far_v } };
}

// By the end that a lamp hangs on: its joint, or itself where a cable goes right to it.
function lampsByEnd(job: JobDocument, lamps: readonly LampReport[]): ReadonlyMap<string, readonly LampReport[]> {
  const joints = new Map((job.luminaires ?? []).map(({ id, joint }) => [id, joint]));
  const groups = new Map<string, LampReport[]>();
  for (const lamp of lamps) {
    const end = joints.get(lamp.id) ?? lamp.id;
    groups.set(end, [...(groups.get(end) ?? []), lamp]);
  }
  // The lamps come in order of distance, and stay so.
  return groups;
}

/** Round steps for an axis that spans `from` to `to` in some `count` steps. */
export function ticks(from: number, to: number, count: number): number[] {
  const span = to - from;
  if (!(span > 0)) return [from];
  const raw = span / count;
  const power = 10 ** Math.floor(Math.log10(raw));
  const step = [1, 2, 5, 10].map((factor) => factor * power).find((one) => one >= raw * 0.999) ?? 10 * power;
  const first = Math.ceil(from / step - 1e-9);
  const last = Math.floor(to / step + 1e-9);
  return Array.from({ length: last - first + 1 }, (_, index) => (first + index) * step);
}
