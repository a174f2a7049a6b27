// SPDX-License-Identifier: Apache-2.0
// A price as a person reads it: its lines in the groups of an offer, quantities with their units, the margin in words.
import type { Price, PriceLine } from '../engine/price';
import type { OptionKind } from '../job/offer';
import { quantityText, type UnitSystem } from '../units/quantity';

export const lineGroups = ['materials', 'labour', 'travel', 'contingency', 'extras', 'tax'] as const;
export type LineGroup = (typeof lineGroups)[number];

export const lineGroupTitles: Readonly<Record<LineGroup, string>> = {
  materials: 'Materials',
  labour: 'Labour',
  travel: 'Travel',
  contingency: 'Contingency',
  extras: 'Extras',
  tax: 'Tax',
};

export function lineGroupOf({ id, group }: PriceLine): LineGroup {
  if (group === 'material') return 'materials';
  if (group === 'tax') return 'tax';
  if (id === 'work/travel' || id === 'trips') return 'travel';
  if (id === 'work/contingency') return 'contingency';
  return group === 'labour' ? 'labour' : 'extras';
}

export interface GroupedLines {
  readonly group: LineGroup;
  readonly lines: readonly PriceLine[];
  readonly price_minor: number;
}

/** Groups that have lines, in the order of an offer; their sums add up to the total. */
export function groupedLines(price: Price): readonly GroupedLines[] {
  return lineGroups
    .map((group) => {
      const lines = price.lines.filter((line) => lineGroupOf(line) === group);
      return { group, lines, price_minor: lines.reduce((sum, line) => sum + line.price_minor, 0) };
    })
    .filter(({ lines }) => lines.length > 0);
}

const plural = (count: number, word: string): string => `${count} ${word}${count === 1 ? '' : 's'}`;

export const hoursText = (hours: number): string => `${hours.toFixed(hours < 10 ? 2 : 1)}\u00a0h`;

export function lineQuantity({ quantity, unit }: PriceLine, units: UnitSystem): string {
  if (unit === 'm') return quantityText(quantity, 'length', units, units === 'us' ? 0 : 1);
  if (unit === 'h') return hoursText(quantity);
  if (unit === '%') return `${Number(quantity.toFixed(3))}\u00a0%`;
  if (unit === 'lump') return '';
  return plural(Number(quantity.toFixed(2)), unit);
}

export interface MarginState {
  readonly good: boolean;
  readonly words: string;
}

/** The margin against its floor. */
export function marginState({ margin_pct, margin_floor_pct }: Price): MarginState {
  const margin = `${margin_pct.toFixed(1)}\u00a0%`;
  if (margin_floor_pct === undefined || margin_floor_pct === null) return { good: true, words: `${margin}, no floor set` };
  const floor = `${Number(margin_floor_pct.toFixed(1))}\u00a0%`;
  return margin_pct < margin_floor_pct ? { good: false, words: `${margin}, below the floor of ${floor}` } : { good: true, words: `${margin}, above the floor of ${floor}` };
}

export const optionKindTitles: Readonly<Record<OptionKind, string>> = { part: 'Part', phase: 'Phase', variant: 'Variant' };

/** What an option's `adds_minor` is counted from. */
export const optionAddsTo: Readonly<Record<OptionKind, string>> = {
  part: 'on top of the base',
  phase: 'on top of what comes before',
  variant: 'against the whole job',
};
