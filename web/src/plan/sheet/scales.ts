// SPDX-License-Identifier: Apache-2.0
// The standard scales of a drawing, and which of them bring a garden onto a sheet. A scale is the number of metres of
// the site that one metre of paper stands for.
import { mPerFt, mPerIn } from '../../units/factors';
import type { UnitSystem } from '../../units/quantity';
import { mmPerIn, pxPerMm, type Box } from './papers';

export interface Scale {
  readonly ratio: number;
  readonly text: string;
}

/** ISO 5455 [from memory]; 1:250, 1:300 and 1:400 are on common scale rulers: common practice, no source. */
const metric: readonly Scale[] = [20, 50, 100, 200, 250, 300, 400, 500, 1000].map((ratio) => ({ ratio, text: `1:${ratio}` }));

/** Feet to an inch, by architects' and engineers' rules: common practice, no source. */
const us: readonly Scale[] = [4, 8, 10, 16, 20, 30, 40, 50, 60, 100].map((feet) => {
  const ratio = Math.round((feet * mPerFt) / mPerIn);
  return { ratio, text: `1" = ${feet}' (1:${ratio})` };
});

export const scalesOf = (units: UnitSystem): readonly Scale[] => (units === 'us' ? us : metric);

/** What is to be drawn, in site metres. */
export interface Bounds {
  readonly leftM: number;
  readonly rightM: number;
  readonly bottomM: number;
  readonly topM: number;
}

/** Round what is drawn there is room for marks and their labels. */
export const markRoomMm = 7;

export const pxPerMOf = (ratio: number): number => (pxPerMm * 1000) / ratio;

/** How much paper the garden takes, with room for its marks. */
export function paperNeeded({ leftM, rightM, bottomM, topM }: Bounds, ratio: number): { widthMm: number; heightMm: number } {
  const mm = (m: number): number => (m * 1000) / ratio + 2 * markRoomMm;
  return { widthMm: mm(rightM - leftM), heightMm: mm(topM - bottomM) };
}

export function fits(bounds: Bounds, ratio: number, room: Box): boolean {
  const { widthMm, heightMm } = paperNeeded(bounds, ratio);
  return widthMm <= room.widthMm && heightMm <= room.heightMm;
}

/** The largest standard scale that fits: the smallest ratio. None where even the smallest drawing is too big. */
export const largestFitting = (bounds: Bounds, units: UnitSystem, room: Box): Scale | undefined =>
  scalesOf(units).find(({ ratio }) => fits(bounds, ratio, room));

/** Why a scale does not fit, in the job's units of paper. */
export function misfitWords(bounds: Bounds, scale: Scale, units: UnitSystem, room: Box): string {
  const inches = units === 'us';
  const length = (mm: number): string => (inches ? (mm / mmPerIn).toFixed(1) : mm.toFixed(0));
  const need = paperNeeded(bounds, scale.ratio);
  const unit = inches ? 'inches' : 'mm';
  return `At ${scale.text} the plan takes ${length(need.widthMm)} by ${length(need.heightMm)} ${unit}. This sheet has room for ${length(room.widthMm)} by ${length(room.heightMm)}. What lies outside is cut off.`;
}
