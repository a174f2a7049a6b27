// SPDX-License-Identifier: Apache-2.0
// The switching programme within a job as TypeScript sees it: what is on from when to when, by the clock and by the
// sun. The same keys as docs/schema/job-v1.schema.json (a test holds both together).

export const switchBases = ['clock', 'sunset', 'sunrise'] as const;
export type SwitchBase = (typeof switchBases)[number];

export interface SwitchRule {
  readonly at: SwitchBase;
  /** HH:MM, where `at` is clock. */
  readonly time?: string;
  /** Where `at` is the sun; negative before. */
  readonly offset_min?: number;
}

export const weekdays = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'] as const;
export type Weekday = (typeof weekdays)[number];

export interface ProgrammeEntry {
  readonly id: string;
  readonly name?: string;
  /** Of luminaires; none: all. */
  readonly zones?: readonly string[];
  /** None: all. */
  readonly transformers?: readonly string[];
  /** None: every day. */
  readonly days?: readonly Weekday[];
  /** MM-DD; none: the whole year. */
  readonly from_day?: string;
  readonly to_day?: string;
  readonly on: SwitchRule;
  readonly off: SwitchRule;
  readonly dim_pct?: number;
}
