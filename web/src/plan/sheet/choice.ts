// SPDX-License-Identifier: Apache-2.0
// From what the person chose to the sheet that is printed: its layout, its scale, and whether the garden fits on it.
import type { UnitSystem } from '../../units/quantity';
import { layoutOf, type PaperId, type SheetLayout, type Turn } from './papers';
import { fits, largestFitting, misfitWords, scalesOf, type Bounds, type Scale } from './scales';

export interface Choice {
  readonly paper: PaperId;
  readonly turn: Turn;
  /** Undefined: the largest standard scale that fits. */
  readonly ratio: number | undefined;
}

export interface SheetChoice {
  readonly layout: SheetLayout;
  readonly scale: Scale;
  readonly largest: Scale | undefined;
  /** Why something is cut off, and what to take instead; undefined where all fits. */
  readonly misfit: { readonly words: string; readonly instead: Scale | undefined } | undefined;
}

export function sheetOf(choice: Choice, bounds: Bounds, units: UnitSystem): SheetChoice {
  const layout = layoutOf(choice.paper, choice.turn);
  const scales = scalesOf(units);
  const largest = largestFitting(bounds, units, layout.plan);
  const scale = scales.find(({ ratio }) => ratio === choice.ratio) ?? largest ?? scales.at(-1)!;
  const misfit = fits(bounds, scale.ratio, layout.plan)
    ? undefined
    : { words: misfitWords(bounds, scale, units, layout.plan), instead: largest };
  return { layout, scale, largest, misfit };
}

/** The way round that takes the larger scale; where both take the same, the way the garden itself lies. */
export function usualTurn(paper: PaperId, bounds: Bounds, units: UnitSystem): Turn {
  const ratio = (turn: Turn): number => largestFitting(bounds, units, layoutOf(paper, turn).plan)?.ratio ?? Infinity;
  const [upright, across] = [ratio('portrait'), ratio('landscape')];
  if (upright !== across) return upright < across ? 'portrait' : 'landscape';
  return bounds.topM - bounds.bottomM >= bounds.rightM - bounds.leftM ? 'portrait' : 'landscape';
}
