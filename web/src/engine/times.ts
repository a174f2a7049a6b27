// SPDX-License-Identifier: Apache-2.0
// When the lights of a job go on and off over a year, what they burn and cost, as the verb `times` asks and answers.
// Keys as in docs/results.md; moments as the site's clocks show them, with the offset from UTC.
import type { Weekday } from '../job/programme';
import type { Finding } from './report';

export interface OffsetChange {
  /** Seconds of UTC since 1970. */
  readonly from_s: number;
  /** Local less UTC from then on. */
  readonly offset_s: number;
  readonly abbreviation: string;
}

export interface ZoneChanges {
  readonly name: string;
  readonly changes: readonly OffsetChange[];
}

export interface TimesRequest {
  readonly year: number;
  readonly zone: ZoneChanges;
  readonly tariff?: { readonly price_minor_per_kwh: number };
  readonly days?: boolean;
}

export interface SunTimes {
  readonly state: 'rises_and_sets' | 'polar_day' | 'polar_night';
  readonly sunrise?: string | null;
  readonly noon: string;
  readonly sunset?: string | null;
  readonly civil_dawn?: string | null;
  readonly civil_dusk?: string | null;
  readonly nautical_dawn?: string | null;
  readonly nautical_dusk?: string | null;
  readonly astronomical_dawn?: string | null;
  readonly astronomical_dusk?: string | null;
}

export interface EntryTimes {
  readonly entry: string;
  readonly state: 'lit' | 'no_sunset' | 'over_before_it_begins';
  readonly on?: string | null;
  readonly off?: string | null;
  readonly hours: number;
  readonly words: string;
}

export interface DayRow {
  readonly date: string;
  readonly weekday: Weekday;
  readonly clock_change_min: number;
  readonly sun: SunTimes;
  readonly entries: readonly EntryTimes[];
}

export interface EntryYear {
  readonly id: string;
  readonly name: string;
  readonly words: string;
  readonly lamps: readonly string[];
  readonly nights_lit: number;
  readonly nights_without_sunset: number;
  readonly nights_too_short: number;
  readonly hours: number;
}

export interface RetrofitSide {
  readonly lamps_w: number;
  readonly energy_kwh: number;
  readonly cost_minor?: number | null;
  readonly life_h: number;
  readonly lamps_a_year: number;
}

export interface Retrofit {
  readonly led: RetrofitSide;
  readonly halogen: RetrofitSide;
  readonly saved_kwh: number;
  readonly saved_minor?: number | null;
  readonly lamps: number;
  readonly left_out: number;
}

export interface Times {
  readonly year: number;
  readonly zone: string;
  readonly latitude_deg: number;
  readonly longitude_deg: number;
  readonly clock_changes: readonly { readonly date: string; readonly by_min: number; readonly abbreviation: string }[];
  readonly entries: readonly EntryYear[];
  readonly days: readonly DayRow[];
  readonly months: readonly { readonly month: number; readonly days: readonly DayRow[]; readonly hours: number; readonly energy_kwh: number }[];
  readonly hours: number;
  readonly lamps: readonly { readonly id: string; readonly hours: number; readonly full_hours: number }[];
  readonly supplies: readonly {
    readonly transformer: string;
    readonly full_w: number;
    readonly loss_w: number;
    readonly energy_kwh: number;
    readonly cost_minor?: number | null;
  }[];
  readonly energy_kwh: number;
  readonly cost_minor?: number | null;
  readonly currency: string;
  readonly retrofit?: Retrofit | null;
  readonly assumptions: readonly string[];
  readonly findings: readonly Finding[];
  readonly sound: boolean;
}
