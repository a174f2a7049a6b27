// SPDX-License-Identifier: Apache-2.0
// What the readings of a visit say, as the verbs `locate` and `readings` ask and answer. Keys as in docs/results.md.
import type { Reading, ReadingQuantity } from '../job/visit';

export interface LocateRequest {
  /** Index of the visit; left out: the last with readings. */
  readonly visit?: number;
  readonly readings?: readonly Reading[];
  readonly readings_alone?: boolean;
}

export interface LocatedPlace {
  readonly id: string;
  readonly cable: string;
  readonly kind: 'joint_side' | 'cable' | 'lamp' | 'output' | 'transformer' | 'supply';
  readonly text: string;
  readonly chance: number;
}

export interface LocatedBracket {
  readonly text: string;
  readonly chance: number;
  readonly places: readonly LocatedPlace[];
}

export interface Tape {
  readonly point: string;
  readonly name: string;
  readonly distance_m: number;
}

export interface DigSpot {
  readonly id: string;
  readonly text: string;
  readonly chance: number;
  readonly effort_min: number;
  readonly digging: boolean;
  readonly depth_m?: number | null;
  readonly offsets?: { readonly first: Tape; readonly second: Tape; readonly side: 'unknown' | 'left' | 'right'; readonly measured: boolean } | null;
  readonly pictures: readonly string[];
  readonly places: readonly LocatedPlace[];
  readonly cautions: readonly string[];
}

export interface LocatedCause {
  readonly text: string;
  readonly chance: number;
  /** By hand, that tells it from its neighbours; empty: nothing is wrong. */
  readonly test: string;
}

/** A fault that no reading here could show. */
export interface Unseen {
  readonly kind: string;
  readonly text: string;
  readonly test: string;
}

export interface NextToRead {
  /** Empty: all lamps at one look. */
  readonly place: string;
  /** V, A, VA, ohm; empty: seen, not measured. */
  readonly quantity: string;
  readonly text: string;
  /** The same as the fields of a job's reading. */
  readonly reads: ReadingQuantity;
  readonly load: 'loaded' | 'open_circuit';
  readonly clamped: 'one' | 'other' | 'net';
  readonly at: string;
  readonly lifted: string;
  readonly information_bit: number;
  readonly effort_min: number;
  readonly outcomes: readonly { readonly text: string; readonly chance: number }[];
  readonly cautions: readonly string[];
}

/** A reading beside the plan. */
export interface ReadingBesidePlan {
  readonly place: string;
  readonly quantity: string;
  readonly unit: string;
  readonly measured: number;
  readonly predicted: number;
  readonly difference: number;
  readonly tolerance: number;
  readonly in_tolerance: boolean;
}

/** ... and beside what the likeliest cause would show. */
export interface ComparedReading extends ReadingBesidePlan {
  readonly explained: number;
  readonly read_again: boolean;
}

export interface Drift {
  readonly place: string;
  readonly text: string;
}

export interface ComparedReadings {
  readonly visit: string;
  readonly compared: readonly ReadingBesidePlan[];
  readonly unused: readonly { readonly place: string; readonly quantity: string; readonly why: string }[];
  readonly drift: readonly Drift[];
}

export interface Located extends ComparedReadings {
  readonly compared: readonly ComparedReading[];
  readonly verdict: 'sound' | 'located' | 'narrowed' | 'misfit' | 'no_readings';
  readonly headline: string;
  readonly causes: readonly LocatedCause[];
  readonly brackets: readonly LocatedBracket[];
  readonly dig_order: readonly DigSpot[];
  readonly next: readonly NextToRead[];
  readonly half_split?: NextToRead | null;
  readonly checks: readonly string[];
  readonly hidden: readonly string[];
  readonly unseen: readonly Unseen[];
  readonly room: readonly { readonly output: string; readonly room_va: number; readonly limited_by: string }[];
  readonly cautions: readonly string[];
  readonly rests_on: readonly string[];
}
