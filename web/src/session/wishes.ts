// SPDX-License-Identifier: Apache-2.0
// What the planner of the wiring is told to hold fast, as the page keeps it, and the request that comes of it.
import type { RouteRequest } from '../engine/route';
import type { JobDocument } from '../job/document';
import { findThing, type ThingKind } from '../job/lookup';

export type PinKind = 'kept_cables' | 'forbidden_trenches' | 'own_outputs' | 'kept_transformers';
export type Pins = Readonly<Record<PinKind, readonly string[]>>;

export interface Wishes {
  readonly pins: Pins;
  readonly noHub: boolean;
  readonly spliceEveryLead: boolean;
  readonly reservePct: number;
  /** 0: as many as pay. */
  readonly mostCableTypes: number;
  readonly seconds: number;
  /** An hour's cost; undefined: what the job says. */
  readonly labourMinorPerH: number | undefined;
}

export const noPins: Pins = { kept_cables: [], forbidden_trenches: [], own_outputs: [], kept_transformers: [] };
export const noWishes: Wishes = {
  pins: noPins, noHub: false, spliceEveryLead: false, reservePct: 0, mostCableTypes: 0, seconds: 10, labourMinorPerH: undefined,
};

export const secondsToChoose: readonly number[] = [2, 10, 30, 60];

/** What a pin holds. */
export const pinThings: Readonly<Record<PinKind, ThingKind>> = {
  kept_cables: 'cable',
  forbidden_trenches: 'cable',
  own_outputs: 'luminaire',
  kept_transformers: 'transformer',
};
export const pinKinds = Object.keys(pinThings) as readonly PinKind[];

/** The pins whose things are in the job: an undo or an accepted plan may have taken some away. */
export function pinsIn(job: JobDocument, pins: Pins): Pins {
  const present = (kind: PinKind): readonly string[] => pins[kind].filter((id) => findThing(job, id, pinThings[kind]));
  return { kept_cables: present('kept_cables'), forbidden_trenches: present('forbidden_trenches'), own_outputs: present('own_outputs'), kept_transformers: present('kept_transformers') };
}

export function toggledPin(pins: Pins, kind: PinKind, id: string): Pins {
  const held = pins[kind];
  return { ...pins, [kind]: held.includes(id) ? held.filter((other) => other !== id) : [...held, id] };
}

/** As the engine has it where the job says nothing: an estimate (see its installed cost). */
const usualLabourMinorPerH = 4000;

/** The hour's cost that counts where the person gives none. */
export function labourOf(job: JobDocument): number {
  return job.offer?.rates?.labour_cost_minor_per_h ?? usualLabourMinorPerH;
}

export function requestOf(job: JobDocument, wishes: Wishes): RouteRequest {
  return {
    pins: pinsIn(job, wishes.pins),
    no_hub: wishes.noHub,
    splice_every_lead: wishes.spliceEveryLead,
    reserve_pct: wishes.reservePct,
    most_cable_types: wishes.mostCableTypes,
    rates: { labour_minor_per_h: wishes.labourMinorPerH ?? labourOf(job) },
  };
}
