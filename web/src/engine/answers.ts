// SPDX-License-Identifier: Apache-2.0
// Answers of the engine beside the report: materials, advice, the quick question, rulesets. Keys as in docs/results.md.
import type { CableItem } from '../job/document';
import type { Change, LampState, Problem, Provenance, Severity } from './report';

export interface TapVerdict {
  readonly tap_v: number;
  readonly fits: boolean;
  readonly present: boolean;
  readonly chosen: boolean;
  readonly lowest_v: number;
  readonly lowest_lamp: string;
  readonly lowest_corner: string;
  readonly highest_v: number;
  readonly highest_lamp: string;
  readonly highest_corner: string;
  readonly low_room_v: number;
  readonly low_room_lamp: string;
  readonly high_room_v: number;
  readonly high_room_lamp: string;
  readonly current_a: number;
  readonly load_margin: number;
  readonly length_margin: number;
  readonly reason: string;
}

export interface TapAdvice {
  readonly output: string;
  readonly transformer: string;
  readonly present_tap_v: number;
  readonly chosen_tap_v?: number | null;
  readonly taps: readonly TapVerdict[];
  readonly reason: string;
  readonly changes: readonly Change[];
}

export interface TransformerChoice {
  readonly item: string;
  readonly title: string;
  readonly rating_va: number;
  readonly output_count: number;
  readonly price_minor: number;
  readonly fits: boolean;
  readonly present: boolean;
  readonly chosen: boolean;
  readonly reason: string;
}

export interface TransformerNeed {
  readonly lamp_count: number;
  readonly lamp_w: number;
  readonly lamp_va: number;
  readonly load_va: number;
  readonly output_count: number;
  readonly taps_v: readonly number[];
  readonly load_share: number;
  readonly output_load_share: number;
  readonly outdoors: boolean;
}

export interface TransformerAdvice {
  readonly transformer: string;
  readonly present_item: string;
  readonly need: TransformerNeed;
  readonly needed_va: number;
  readonly chosen_item: string;
  readonly needed_outputs: number;
  readonly choices: readonly TransformerChoice[];
  readonly reason: string;
  readonly changes: readonly Change[];
}

export interface ProtectionAdvice {
  readonly output: string;
  readonly limit_a: number;
  readonly worst_current_a: number;
  readonly far_short_a: number;
  readonly far_short_at: string;
  readonly trips: boolean;
  readonly suggested_limit_a?: number | null;
  readonly reason: string;
  readonly changes: readonly Change[];
}

export interface Advice {
  readonly taps: readonly TapAdvice[];
  readonly transformers: readonly TransformerAdvice[];
  readonly protection: readonly ProtectionAdvice[];
}

/** What is left out of lamps, length_m, tap_v and cable is asked for. */
export interface Question {
  readonly lamps?: number;
  readonly length_m?: number;
  readonly tap_v?: number;
  readonly cable?: CableItem;
  readonly lamp_w?: number;
  readonly power_factor?: number;
  readonly spread?: 'chain' | 'end' | 'hub' | 'tee';
  readonly [key: string]: unknown;
}

export interface Tried {
  readonly value: number;
  readonly name: string;
  readonly last_v: number;
  readonly worst_low_v: number;
  readonly worst_high_v: number;
  readonly holds: boolean;
}

export interface Answer {
  readonly asked: 'nothing' | 'lamps' | 'length' | 'tap' | 'cable';
  readonly found: boolean;
  readonly unbounded: boolean;
  readonly lamps: number;
  readonly length_m: number;
  readonly tap_v: number;
  readonly cable: CableItem;
  readonly holds: boolean;
  readonly last_v: number;
  readonly first_v: number;
  readonly worst_low_v: number;
  readonly worst_high_v: number;
  readonly last_state: LampState;
  readonly last_light: number;
  readonly current_a: number;
  readonly lamp_va: number;
  readonly load_va: number;
  readonly load_margin: number;
  readonly load_beyond_cap: boolean;
  readonly length_margin: number;
  readonly length_beyond_cap: boolean;
  readonly short_a: number;
  readonly tried: readonly Tried[];
  readonly sentence: string;
}

/** A text of an exported file beside the document: README.txt, a table as CSV, the schema. */
export interface ExportText {
  /** In the archive: tables/lamps.csv. */
  readonly name: string;
  readonly text: string;
}

/** What to buy and to cut, as `duskwire materials --json` prints it. */
export interface Materials {
  readonly currency: string;
  readonly lines: readonly MaterialLine[];
  readonly cables: readonly CableTotal[];
  readonly reels: readonly { readonly item: string; readonly number: number; readonly length_m: number; readonly used_m: number }[];
  readonly cuts: readonly Cut[];
  readonly splices: readonly Splice[];
  readonly price_minor: number;
  readonly labour_min: number;
  readonly problems: readonly Problem[];
}

export interface MaterialLine {
  readonly category: string;
  readonly item: string;
  readonly title: string;
  readonly quantity: number;
  readonly unit: string;
  readonly unit_price_minor: number;
  readonly price_minor: number;
  readonly labour_min: number;
  readonly note: string;
}

export interface CableTotal {
  readonly item: string;
  readonly title: string;
  readonly cuts: number;
  readonly route_m: number;
  readonly slack_m: number;
  readonly cut_m: number;
  readonly with_waste_m: number;
  readonly bought_m: number;
}

export interface Cut {
  readonly tag: string;
  readonly item: string;
  readonly from: string;
  readonly from_name: string;
  readonly to: string;
  readonly to_name: string;
  readonly route_m: number;
  readonly slack_from_m: number;
  readonly slack_to_m: number;
  readonly cut_m: number;
  readonly reel: number;
  readonly running_m: number;
}

export interface Splice {
  readonly joint: string;
  readonly name: string;
  readonly kind: string | null;
  readonly wires_per_conductor: number;
  readonly connector: string;
  readonly suggested: string;
  readonly fits: boolean;
  readonly pieces: number;
  readonly pieces_per_conductor: number;
  readonly spare_ports: number;
  readonly note: string;
}

export interface RulesetFile {
  readonly id: string;
  readonly title: string;
  readonly notice: string;
  readonly rules: readonly {
    readonly id: string;
    readonly check: string;
    readonly severity: Severity;
    readonly title: string;
    readonly values?: Readonly<Record<string, number>>;
    readonly provenance: Provenance;
  }[];
}
