// SPDX-License-Identifier: Apache-2.0
// The offer within a job as TypeScript sees it: what time is worth, what is added to cost, terms, options, extras. The
// same keys as docs/schema/job-v1.schema.json (a test holds both together). What is absent is taken by the engine.
import type { GroundKind } from './document';

export interface GroundRate {
  readonly ground: GroundKind;
  readonly trench_min_per_m: number;
}

export interface Rates {
  readonly labour_price_minor_per_h?: number;
  readonly labour_cost_minor_per_h?: number;
  readonly trip_price_minor?: number;
  readonly trip_cost_minor?: number;
  readonly sundries_cost_minor?: number;
  readonly crew_size?: number;
  readonly trips?: number;
  readonly trip_h?: number;
  readonly work_day_h?: number;
  readonly night_visit_h?: number;
  readonly night_visit_people?: number;
  readonly commissioning_min_per_lamp?: number;
  readonly commissioning_min_per_output?: number;
  readonly trenches?: readonly GroundRate[];
}

export const taxBases = ['whole_price', 'material'] as const;
export type TaxBase = (typeof taxBases)[number];

export interface Margins {
  readonly material_markup_pct?: number;
  readonly overhead_pct?: number;
  readonly margin_floor_pct?: number;
  readonly contingency_pct?: number;
  readonly tax_pct?: number;
  readonly tax_on?: TaxBase;
  readonly tax_name?: string;
}

export interface Warranty {
  readonly subject: string;
  readonly years: number;
}

export interface Terms {
  readonly deposit_pct?: number;
  readonly deposit_cap_minor?: number;
  /** Id of a rule of the data that limits the deposit. */
  readonly deposit_rule?: string;
  readonly valid_days?: number;
  readonly exclusions?: readonly string[];
  readonly warranties?: readonly Warranty[];
  readonly text?: string;
}

export interface ItemSwap {
  readonly item: string;
  readonly with: string;
}

export const optionKinds = ['part', 'phase', 'variant'] as const;
/** A part is taken or left, a phase follows the phase before it, a variant stands for the whole. */
export type OptionKind = (typeof optionKinds)[number];

export interface OfferOption {
  readonly id: string;
  readonly kind?: OptionKind;
  readonly title?: string;
  readonly text?: string;
  /** A variant without any has them all. */
  readonly luminaires?: readonly string[];
  readonly swaps?: readonly ItemSwap[];
  readonly chosen?: boolean;
}

export interface OfferExtra {
  readonly id: string;
  readonly title: string;
  /** Negative: a reduction. */
  readonly price_minor: number;
  readonly cost_minor?: number;
}

export interface Offer {
  readonly number?: string;
  readonly date?: string;
  readonly rates?: Rates;
  readonly margins?: Margins;
  readonly terms?: Terms;
  readonly options?: readonly OfferOption[];
  readonly extras?: readonly OfferExtra[];
}
