// SPDX-License-Identifier: Apache-2.0
// The year as a picture: a column for each night from noon to noon, so that the night stands whole in the middle. Times
// are those of the site's clocks, so a change of the clocks is a step, as people see it.
import type { DayRow, Times } from '../engine/times';

const dayMinutes = 1440;
export const noon = dayMinutes / 2;

/** A stretch within one column: minutes after noon, 0 to 1440. */
export interface Stretch {
  readonly column: number;
  readonly from: number;
  readonly to: number;
}

const dayNumber = (date: string): number => Math.round(Date.parse(`${date.slice(0, 10)}T00:00:00Z`) / 86_400_000);

/** Minutes by the clock since the year's first midnight, of "2026-03-08T19:13:05-05:00". */
export function clockMinutes(moment: string, year: number): number {
  const [hours, minutes, seconds] = [11, 14, 17].map((at) => Number(moment.slice(at, at + 2))) as [number, number, number];
  return (dayNumber(moment) - dayNumber(`${year}-01-01`)) * dayMinutes + hours * 60 + minutes + seconds / 60;
}

/** Cut at each noon; what lies outside the year's columns falls away. */
export function stretches(from: number, to: number, columns: number): readonly Stretch[] {
  const found: Stretch[] = [];
  for (let at = from; at < to; ) {
    const column = Math.floor((at - noon) / dayMinutes);
    const start = noon + column * dayMinutes;
    const end = Math.min(to, start + dayMinutes);
    if (column >= 0 && column < columns) found.push({ column, from: at - start, to: end - start });
    at = end;
  }
  return found;
}

/** When an entry's lights are on. */
export function litStretches({ days, year }: Times, entry: string): readonly Stretch[] {
  return days.flatMap((day) =>
    day.entries
      .filter((times) => times.entry === entry && times.state === 'lit' && times.on && times.off)
      .flatMap(({ on, off }) => stretches(clockMinutes(on!, year), clockMinutes(off!, year), days.length)),
  );
}

type Crossing = 'sunset' | 'sunrise' | 'civil_dusk' | 'civil_dawn';

/** Where each column meets it, in minutes after noon; undefined where it does not. */
export function crossings({ days, year }: Times, which: Crossing): readonly (number | undefined)[] {
  const found = new Array<number | undefined>(days.length).fill(undefined);
  for (const { sun } of days) {
    const moment = sun[which];
    if (!moment) continue;
    const [stretch] = stretches(clockMinutes(moment, year), clockMinutes(moment, year) + 1, days.length);
    if (stretch) found[stretch.column] = stretch.from;
  }
  return found;
}

/** The dark of each column, between one crossing and the next; all of it in a polar night. */
export function darkStretches(times: Times, down: Crossing, up: Crossing): readonly Stretch[] {
  const [falls, rises] = [crossings(times, down), crossings(times, up)];
  return times.days.flatMap(({ sun }, column): readonly Stretch[] => {
    const [from, to] = [falls[column], rises[column]];
    if (from === undefined && to === undefined) return sun.state === 'polar_night' ? [{ column, from: 0, to: dayMinutes }] : [];
    const dusk = from ?? 0;
    // The last night's dawn is next year's: about that of the night before.
    const dawn = to ?? (column === times.days.length - 1 ? rises[column - 1] : undefined) ?? dayMinutes;
    return dusk < dawn ? [{ column, from: dusk, to: dawn }] : [];
  });
}

/** Bars as the path of one shape. */
export function barsPath(list: readonly Stretch[], columnWidth: number, minuteHeight: number): string {
  const round = (value: number): string => String(Math.round(value * 100) / 100);
  return list.map(({ column, from, to }) => `M${round(column * columnWidth)} ${round(from * minuteHeight)}h${round(columnWidth)}v${round((to - from) * minuteHeight)}h${round(-columnWidth)}z`).join('');
}

/** A line through the columns, broken where there is nothing or where the clocks jump. */
export function linePath(values: readonly (number | undefined)[], columnWidth: number, minuteHeight: number): string {
  const jump = 25;
  let path = '';
  let last: number | undefined;
  values.forEach((value, column) => {
    if (value !== undefined) {
      const joined = last !== undefined && Math.abs(value - last) < jump;
      path += `${joined ? 'L' : 'M'}${((column + 0.5) * columnWidth).toFixed(1)} ${(value * minuteHeight).toFixed(1)}`;
    }
    last = value;
  });
  return path;
}

/** The first column of each month. */
export const monthColumns = (days: readonly DayRow[]): readonly number[] => days.flatMap(({ date }, column) => (date.endsWith('-01') ? [column] : []));
