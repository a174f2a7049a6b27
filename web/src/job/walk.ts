// SPDX-License-Identifier: Apache-2.0
// A run of a garden without a plan, as it was followed with a locator and clamped: what the page keeps with a visit and
// the verb `trace` takes. Keys as in docs/results.md.
import type { Point2 } from './document';

export interface WalkedRun {
  readonly id: string;
  readonly output: string;
  readonly item?: string;
  readonly current_a?: number;
  /** The first from the transformer, each other one from an earlier one. */
  readonly ways: readonly { readonly path: readonly Point2[] }[];
  readonly clamps?: readonly { readonly at: Point2; readonly current_a: number }[];
  readonly went_dark?: readonly string[];
  readonly stayed_lit?: readonly string[];
}
