// SPDX-License-Identifier: Apache-2.0
// What the engine answers, as TypeScript sees it: the same keys as docs/results.md (a test holds both together). SI numbers.

export type Severity = 'note' | 'warning' | 'error';
export type LampState = 'off' | 'dim' | 'regulated' | 'over';

/** One thing wrong with a document, as a reader reports it. */
export interface Problem {
  readonly severity: Severity;
  readonly pointer: string;
  readonly value: string;
  readonly expected: string;
  readonly message: string;
}

/** A computed edit; only the engine applies it (Engine.applyChanges). */
export interface Change {
  readonly kind: string;
  readonly target: string;
  readonly text?: string;
  readonly other?: string;
  readonly number?: number;
}

export interface Cure {
  readonly text: string;
  readonly changes: readonly Change[];
}

export interface Provenance {
  readonly clause: string;
  readonly edition: string;
  readonly status: string;
  readonly note: string;
}

export interface Finding {
  readonly id: string;
  readonly severity: Severity;
  readonly subject: string;
  readonly pointer: string;
  readonly message: string;
  readonly measured?: number | null;
  readonly limit?: number | null;
  readonly unit?: string;
  readonly provenance: Provenance;
  readonly cures: readonly Cure[];
}

export interface LampReport {
  readonly id: string;
  readonly nominal_v: number;
  readonly worst_low_v: number;
  readonly worst_high_v: number;
  readonly worst_low_corner: string;
  readonly worst_high_corner: string;
  readonly window_min_v: number;
  readonly window_max_v: number;
  readonly current_a: number;
  readonly state: LampState;
  readonly worst_state: LampState;
  readonly light: number;
  readonly output: string;
  readonly distance_m: number;
}

export interface CableReport {
  readonly id: string;
  readonly length_m: number;
  readonly current_a: number;
  readonly worst_current_a: number;
  readonly drop_v: number;
  readonly loss_w: number;
  readonly from_v: number;
  readonly to_v: number;
  readonly output: string;
}

export interface OutputReport {
  readonly id: string;
  readonly transformer: string;
  readonly tap_v: number;
  readonly terminal_v: number;
  readonly current_a: number;
  readonly worst_current_a: number;
  readonly limit_a: number;
  readonly load_share: number;
  readonly lowest_lamp_v: number;
  readonly highest_lamp_v: number;
  readonly lamp_count: number;
  readonly far_short_a: number;
  readonly far_short_at: string;
}

export interface TransformerReport {
  readonly id: string;
  readonly lamp_va: number;
  readonly load_va: number;
  readonly worst_load_va: number;
  readonly rating_va: number;
  readonly headroom_va: number;
  readonly load_share: number;
  readonly copper_loss_w: number;
  readonly core_loss_w: number;
  readonly cable_loss_w: number;
  readonly input_w: number;
}

export interface CornerReport {
  readonly name: string;
  readonly mains_factor: number;
  readonly cable_c: number;
  readonly length_factor: number;
  readonly lowest_v: number;
  readonly lowest_lamp: string;
  readonly highest_v: number;
  readonly highest_lamp: string;
  readonly converged: boolean;
}

export interface ShortReport {
  readonly place: string;
  readonly output: string;
  readonly current_a: number;
  readonly limit_a: number;
}

export interface MarginReport {
  readonly load_factor: number;
  readonly load_beyond_cap: boolean;
  readonly load_first_lamp: string;
  readonly length_factor: number;
  readonly length_beyond_cap: boolean;
  readonly length_first_lamp: string;
}

export interface Report {
  readonly lamps: readonly LampReport[];
  readonly cables: readonly CableReport[];
  readonly outputs: readonly OutputReport[];
  readonly transformers: readonly TransformerReport[];
  readonly corners: readonly CornerReport[];
  readonly shorts: readonly ShortReport[];
  readonly margin: MarginReport;
  readonly findings: readonly Finding[];
  readonly lamp_va: number;
  readonly sound: boolean;
}
