// SPDX-License-Identifier: Apache-2.0
// Today's and the planned wiring in figures, row by row: each with what belongs to it, the difference in words, and
// which of the two is better where one can say so.
import type { RouteFigures } from '../engine/route';
import { moneyText } from '../units/money';
import { quantityText, type UnitSystem } from '../units/quantity';

export type Better = 'today' | 'planned' | 'same' | 'unsaid';

export interface FigureCell {
  readonly text: string;
  /** Which lamp, how many: what belongs to the number. */
  readonly more: string;
}

export interface FigureRow {
  readonly title: string;
  readonly today: FigureCell;
  readonly planned: FigureCell;
  /** "USD 120.00 less"; empty where there is nothing to compare. */
  readonly change: string;
  readonly better: Better;
}

export interface FigureMeans {
  readonly units: UnitSystem;
  readonly currency: string;
  /** What people call a lamp. */
  readonly name: (id: string) => string;
}

type Figure = number | null;

interface Rule {
  readonly title: string;
  readonly value: (figures: RouteFigures) => Figure;
  readonly text: (value: Figure) => string;
  readonly more?: (figures: RouteFigures) => string;
  readonly lessIsBetter: boolean | undefined;
  /** Means nothing where not every lamp is fed. */
  readonly ofWhole?: boolean;
}

function rulesOf({ units, currency, name }: FigureMeans): readonly Rule[] {
  const money = (minor: Figure): string => (minor === null ? '–' : moneyText(Math.round(minor), currency));
  const length = (metres: Figure): string => quantityText(metres, 'length', units, units === 'us' ? 0 : 1);
  const count = (value: Figure): string => quantityText(value, 'count', units);
  const volts = (value: Figure): string => quantityText(value, 'voltage', units);
  const hours = (minutes: Figure): string => (minutes === null ? '–' : `${(minutes / 60).toFixed(1)}\u00a0h`);
  const behind = (id: string): string => (id === '' ? '' : `at ${name(id)}`);
  return [
    { title: 'Installed cost, estimate', value: ({ cost }) => cost.cost_minor, text: money, lessIsBetter: true, ofWhole: true },
    { title: 'Labour, estimate', value: ({ cost }) => cost.labour_min, text: hours, lessIsBetter: true, ofWhole: true },
    { title: 'Trench to dig', value: ({ cost }) => cost.trench_m, text: length, lessIsBetter: true, ofWhole: true },
    { title: 'Cable, slack included', value: ({ cost }) => cost.cable_m, text: length, lessIsBetter: true, ofWhole: true },
    { title: 'Joints', value: ({ cost }) => cost.joints, text: count, lessIsBetter: true, ofWhole: true },
    { title: 'Cable types', value: ({ cost }) => cost.cable_types, text: count, lessIsBetter: true, ofWhole: true },
    { title: 'Lowest volts, worst case', value: ({ lowest_v }) => lowest_v, text: volts, more: ({ lowest_lamp }) => behind(lowest_lamp), lessIsBetter: undefined },
    { title: 'Least room to the window', value: ({ least_room_v }) => least_room_v, text: volts, more: ({ least_room_lamp, least_room_v }) => `${behind(least_room_lamp)}${least_room_v < 0 ? ', outside' : ''}`, lessIsBetter: false },
    { title: 'All loads may grow', value: ({ load_margin }) => load_margin, text: (value) => (value === null ? '–' : `${value.toFixed(2)} times`), lessIsBetter: false },
    { title: 'Transformers', value: ({ rating_va }) => rating_va, text: (value) => quantityText(value, 'apparent_power', units, 0), more: (figures) => `${figures.transformers} in all, load ${quantityText(figures.load_va, 'apparent_power', units, 0)}`, lessIsBetter: undefined },
    { title: 'Errors', value: ({ errors }) => errors, text: count, lessIsBetter: true },
  ];
}

export function figureRows(today: RouteFigures, planned: RouteFigures, means: FigureMeans): readonly FigureRow[] {
  return rulesOf(means).map((rule) => {
    const [a, b] = [rule.value(today), rule.value(planned)];
    const cell = (figures: RouteFigures, value: Figure): FigureCell => ({ text: rule.text(value), more: rule.more?.(figures) ?? '' });
    const comparable = !rule.ofWhole || (today.wired && planned.wired);
    return { title: rule.title, today: cell(today, a), planned: cell(planned, b), ...(comparable ? compared(rule, a, b) : { change: '', better: 'unsaid' as const }) };
  });
}

// Two numbers that read the same are the same: nobody is served by a hundredth of a cent.
function compared(rule: Rule, today: Figure, planned: Figure): { readonly change: string; readonly better: Better } {
  if (today === null || planned === null) return { change: '', better: 'unsaid' };
  if (rule.text(today) === rule.text(planned)) return { change: 'the same', better: 'same' };
  const less = planned < today;
  const change = `${rule.text(Math.abs(planned - today))} ${less ? 'less' : 'more'}`;
  if (rule.lessIsBetter === undefined) return { change, better: 'unsaid' };
  return { change, better: less === rule.lessIsBetter ? 'planned' : 'today' };
}
