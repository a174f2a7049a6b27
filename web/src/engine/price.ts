// SPDX-License-Identifier: Apache-2.0
// What a job costs and why that moved, as the verbs `price` and `price_difference` answer. Keys as in docs/results.md;
// money in minor units.
import type { OptionKind } from '../job/offer';
import type { Problem } from './report';

export type PriceGroup = 'material' | 'labour' | 'extra' | 'tax';

export interface PriceLine {
  readonly id: string;
  readonly group: PriceGroup;
  readonly text: string;
  readonly quantity: number;
  /** piece, m, h, trip, lump or %. */
  readonly unit: string;
  readonly unit_price_minor: number;
  readonly cost_minor: number;
  readonly price_minor: number;
  readonly reason: string;
}

export type WorkKind =
  | 'fixtures' | 'transformers' | 'cable' | 'splices' | 'small_goods' | 'trench' | 'commissioning' | 'night_visit' | 'travel' | 'contingency';

export interface Deposit {
  readonly amount_minor: number;
  readonly rule: string;
  readonly title: string;
  readonly status: string;
  readonly reason: string;
}

export interface PricedOption {
  readonly id: string;
  readonly title: string;
  readonly kind: OptionKind;
  readonly chosen: boolean;
  readonly luminaires: readonly string[];
  readonly net_minor: number;
  readonly total_minor: number;
  readonly adds_minor: number;
  readonly deposit_minor: number;
}

export interface Price {
  readonly currency: string;
  readonly lines: readonly PriceLine[];
  readonly hours: readonly { readonly kind: WorkKind; readonly hours: number }[];
  readonly hours_total: number;
  readonly trips: number;
  readonly material_cost_minor: number;
  readonly labour_cost_minor: number;
  readonly other_cost_minor: number;
  readonly overhead_minor: number;
  readonly net_minor: number;
  readonly tax_minor: number;
  readonly total_minor: number;
  readonly margin_pct: number;
  readonly gross_margin_pct: number;
  readonly margin_floor_pct?: number | null;
  readonly deposit?: Deposit | null;
  readonly options: readonly PricedOption[];
  readonly base_minor?: number | null;
  readonly taken_minor?: number | null;
  readonly assumptions: readonly { readonly what: string; readonly value: string; readonly status: string }[];
  readonly problems: readonly Problem[];
}

export interface LineMove {
  readonly id: string;
  readonly group: PriceGroup;
  readonly before_minor: number;
  readonly after_minor: number;
  readonly moved_minor: number;
  readonly reason: string;
}

export interface PriceMove {
  readonly currency: string;
  readonly before_minor: number;
  readonly after_minor: number;
  readonly moved_minor: number;
  readonly lines: readonly LineMove[];
  readonly summary: string;
  readonly problems: readonly Problem[];
}

export interface DepositRule {
  readonly id: string;
  readonly title: string;
  readonly most_pct?: number;
  readonly most_minor?: number;
  readonly currency?: string;
  readonly clause: string;
  readonly status: string;
  readonly note?: string;
}

export interface DepositRules {
  readonly notice: string;
  readonly rules: readonly DepositRule[];
}

/** What a first look and a price band take: a known size on a photograph, what was measured beside it, the client's words. */
export interface FirstLookRequest {
  readonly known: SeenThing;
  readonly known_m: number;
  readonly things?: readonly SeenThing[];
  readonly note: string;
  readonly depth_error_share: number;
  readonly click_error_px: number;
  readonly outlet_known: boolean;
  readonly water_known: boolean;
  readonly night_photo_seen: boolean;
}

export interface SeenThing {
  readonly name: string;
  readonly size_px: number;
}

/** What a garden may cost before anybody has walked it. */
export interface PriceBand {
  readonly currency: string;
  readonly lamps_low: number;
  readonly lamps_high: number;
  readonly low_minor: number;
  readonly usual_minor: number;
  readonly high_minor: number;
  readonly parts: readonly BandPart[];
  readonly widens: readonly string[];
  readonly narrows: readonly string[];
  readonly basis: string;
}

export interface BandPart {
  readonly feature: string;
  readonly lamps_low: number;
  readonly lamps_high: number;
  readonly low_minor: number;
  readonly high_minor: number;
  readonly reason: string;
}
