// SPDX-License-Identifier: Apache-2.0
// A visit within a job as TypeScript sees it: what was measured where, and what the owner told. The same keys as
// docs/schema/job-v1.schema.json (a test holds both together). What follows from a log: visit-log.ts.
import type { LogEntry } from './visit-log';
import type { WalkedRun } from './walk';

export const visitKinds = ['survey', 'installation', 'commissioning', 'night_visit', 'hand_over', 'care', 'service', 'other'] as const;
export type VisitKind = (typeof visitKinds)[number];

export const readingQuantities = [
  'voltage', 'current', 'mains_voltage', 'mains_current', 'power', 'apparent_power', 'resistance', 'illuminance', 'temperature', 'lamp_state', 'breaker',
] as const;
export type ReadingQuantity = (typeof readingQuantities)[number];

export const readingUnits = ['V', 'A', 'W', 'VA', 'ohm', 'lx', 'C'] as const;
export const seenStates = ['measured', 'lit', 'dim', 'dark', 'flickering', 'tripped', 'holding'] as const;
export type Seen = (typeof seenStates)[number];

export interface Reading {
  readonly place: string;
  readonly quantity: ReadingQuantity;
  readonly value?: number;
  readonly unit?: (typeof readingUnits)[number];
  readonly seen?: Seen;
  readonly load?: 'loaded' | 'open_circuit';
  readonly clamped?: 'one' | 'other' | 'net';
  readonly at?: string;
  readonly lifted?: string;
  readonly time?: string;
  readonly note?: string;
}

export interface Answers {
  readonly age_years?: number;
  readonly new_work?: boolean;
  readonly rained?: boolean;
  readonly storm?: boolean;
  readonly digging?: boolean;
  readonly dug_near?: readonly string[];
}

export interface Visit {
  readonly date: string;
  readonly kind: VisitKind;
  readonly by?: string;
  readonly meter?: string;
  readonly meter_accuracy_pct?: number;
  readonly clamp_accuracy_pct?: number;
  readonly weather?: string;
  readonly complaint?: string;
  readonly answers?: Answers;
  readonly readings?: readonly Reading[];
  readonly pictures?: readonly string[];
  readonly notes?: string;
  readonly signed_off?: string;
  readonly id?: string;
  readonly log?: readonly LogEntry[];
}

/** A visit that the page keeps a log of. */
export type LoggedVisit = Visit & {
  readonly id: string;
  readonly log: readonly LogEntry[];
  /** Of a garden without a plan: what was followed and clamped. The page's own key, which the engine keeps as it is. */
  readonly walk?: readonly WalkedRun[];
};
export const isLogged = (visit: Visit): visit is LoggedVisit => typeof visit.id === 'string' && Array.isArray(visit.log);
