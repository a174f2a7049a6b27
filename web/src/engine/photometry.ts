// SPDX-License-Identifier: Apache-2.0
// How one lamp spreads its light: what the engine's verb `photometry` answers (docs/results.md has every key).
import type { BeamShape } from '../job/beam-shape';
import type { LuminaireItem } from '../job/document';
import type { Problem } from './report';

export interface PhotometryQuestion {
  /** Text of an LM-63 or EULUMDAT file. */
  readonly file?: string;
  readonly item?: LuminaireItem;
  readonly lm63?: boolean;
}

export interface BeamAngles {
  readonly c_deg: number;
  readonly beam_deg?: number | null;
  readonly field_deg?: number | null;
}

export interface PolarCurve {
  readonly c_deg: number;
  readonly points: readonly { readonly gamma_deg: number; readonly intensity_cd: number }[];
}

export interface BugLimit {
  readonly letter: 'backlight' | 'uplight' | 'glare';
  readonly zone: string;
  readonly flux_lm: number;
  readonly limits_lm: readonly number[];
  readonly rating: number;
  readonly status: 'seen' | 'from memory';
}

export interface Photometry {
  readonly flux_lm: number;
  readonly peak_cd: number;
  readonly peak_c_deg: number;
  readonly peak_gamma_deg: number;
  readonly down_pct: number;
  readonly up_pct: number;
  readonly beams: readonly BeamAngles[];
  readonly bug: { readonly backlight: number; readonly uplight: number; readonly glare: number; readonly limits: readonly BugLimit[] };
  readonly curves: readonly PolarCurve[];
}

export interface PhotometryReport {
  /** Kind of file, or `beam`: made from beam angle and lumens. */
  readonly source: string;
  readonly shape?: BeamShape | null;
  readonly power_w: number;
  readonly light: Photometry;
}

export interface PhotometryAnswer {
  readonly findings: readonly Problem[];
  /** None where a file cannot be used. */
  readonly report?: PhotometryReport;
  readonly lm63?: string;
}
