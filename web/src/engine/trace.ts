// SPDX-License-Identifier: Apache-2.0
// The wiring of a garden without a plan, as the verb `trace` asks and answers. Keys as in docs/results.md.
import type { JobDocument } from '../job/document';
import type { Reading } from '../job/visit';
import type { WalkedRun } from '../job/walk';

export interface TraceRequest {
  /** Index of the visit whose volts count too. */
  readonly visit?: number;
  readonly runs: readonly WalkedRun[];
  readonly readings?: readonly Reading[];
}

export interface LampFound {
  readonly id: string;
  readonly text: string;
  /** Empty: none that was walked. */
  readonly run: string;
  readonly chance: number;
  readonly places: readonly { readonly run: string; readonly x_m: number; readonly y_m: number; readonly from_transformer_m: number; readonly lead_m: number; readonly chance: number }[];
}

export interface PartFound {
  readonly cable: string;
  readonly from: string;
  readonly to: string;
  readonly length_m: number;
  readonly current_a: number;
  readonly chance: number;
  /** Of the lamps drawn at its far end. */
  readonly end_chance: number;
}

export interface RunFound {
  readonly id: string;
  readonly lamps: readonly string[];
  readonly cables: readonly { readonly item: string; readonly title: string; readonly chance: number }[];
  readonly parts: readonly PartFound[];
  readonly measured_a?: number | null;
  readonly expected_a: number;
  readonly chance: number;
}

export interface Traced {
  readonly job: JobDocument;
  readonly headline: string;
  readonly lamps: readonly LampFound[];
  readonly runs: readonly RunFound[];
  readonly remarks: readonly string[];
  readonly next: readonly { readonly run: string; readonly text: string; readonly information_bit: number }[];
  readonly rests_on: readonly string[];
}
