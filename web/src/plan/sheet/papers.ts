// SPDX-License-Identifier: Apache-2.0
// The papers that the plan is printed on, and where things stand on a sheet: all in millimetres of paper, from the top
// left corner.
import { mPerIn } from '../../units/factors';
import type { UnitSystem } from '../../units/quantity';

const mmPerM = 1000;
export const mmPerIn = mPerIn * mmPerM;
/** CSS: 96 px are one inch, on paper exactly. */
export const pxPerMm = 96 / mmPerIn;

export const paperIds = ['a4', 'a3', 'letter', 'tabloid'] as const;
export type PaperId = (typeof paperIds)[number];
export type Turn = 'portrait' | 'landscape';

export interface Paper {
  readonly title: string;
  /** Upright. */
  readonly widthMm: number;
  readonly heightMm: number;
}

/** A sizes: ISO 216. Letter and Tabloid: ANSI/ASME Y14.1, sizes A and B [from memory]. */
export const papers: Record<PaperId, Paper> = {
  a4: { title: 'A4', widthMm: 210, heightMm: 297 },
  a3: { title: 'A3', widthMm: 297, heightMm: 420 },
  letter: { title: 'US Letter', widthMm: 8.5 * mmPerIn, heightMm: 11 * mmPerIn },
  tabloid: { title: 'Tabloid', widthMm: 11 * mmPerIn, heightMm: 17 * mmPerIn },
};

export const usualPaper = (units: UnitSystem): PaperId => (units === 'us' ? 'letter' : 'a4');

export interface Box {
  readonly xMm: number;
  readonly yMm: number;
  readonly widthMm: number;
  readonly heightMm: number;
}

export interface SheetLayout {
  readonly widthMm: number;
  readonly heightMm: number;
  /** The heavy line round everything. */
  readonly frame: Box;
  readonly plan: Box;
  readonly key: Box;
  readonly title: Box;
  /** Under the frame: the bar that checks the printer. */
  readonly check: Box;
}

/** What home printers leave white: common practice, no source. */
const marginMm = 10;
const checkMm = 7;
const titleWidthMm = 76;
const titleHeightMm = 58;

/** Upright the key and the title lie under the plan, across they stand at its right; the title is lower right. */
export function layoutOf(id: PaperId, turn: Turn): SheetLayout {
  const paper = papers[id];
  const [widthMm, heightMm] = turn === 'portrait' ? [paper.widthMm, paper.heightMm] : [paper.heightMm, paper.widthMm];
  const frame: Box = { xMm: marginMm, yMm: marginMm, widthMm: widthMm - 2 * marginMm, heightMm: heightMm - 2 * marginMm - checkMm };
  const right = frame.xMm + frame.widthMm;
  const bottom = frame.yMm + frame.heightMm;
  const title: Box = { xMm: right - titleWidthMm, yMm: bottom - titleHeightMm, widthMm: titleWidthMm, heightMm: titleHeightMm };
  const upright = turn === 'portrait';
  const plan: Box = upright
    ? { ...frame, heightMm: frame.heightMm - titleHeightMm }
    : { ...frame, widthMm: frame.widthMm - titleWidthMm };
  const key: Box = upright
    ? { xMm: frame.xMm, yMm: title.yMm, widthMm: frame.widthMm - titleWidthMm, heightMm: titleHeightMm }
    : { xMm: title.xMm, yMm: frame.yMm, widthMm: titleWidthMm, heightMm: frame.heightMm - titleHeightMm };
  const check: Box = { xMm: marginMm, yMm: bottom, widthMm: frame.widthMm, heightMm: checkMm };
  return { widthMm, heightMm, frame, plan, key, title, check };
}
