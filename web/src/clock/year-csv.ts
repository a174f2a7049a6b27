// SPDX-License-Identifier: Apache-2.0
// The year of the clock as a table: a row for each day, a pair of columns for each entry.
import type { Times } from '../engine/times';
import { csvText } from '../units/csv';
import { clockText } from './words';

const moment = (text: string | null | undefined): string => (text ? clockText(text) : '');

export function yearCsv(times: Times, names: ReadonlyMap<string, string>): string {
  const entries = times.entries.map(({ id }) => id);
  const head = ['date', 'weekday', 'sunrise', 'sunset', 'clock_change_min', ...entries.flatMap((id) => [`${names.get(id) ?? id}: on`, `${names.get(id) ?? id}: off`])];
  const rows = times.days.map((day) => [
    day.date, day.weekday, moment(day.sun.sunrise), moment(day.sun.sunset), day.clock_change_min,
    ...entries.flatMap((id) => {
      const row = day.entries.find(({ entry, state }) => entry === id && state === 'lit');
      return [moment(row?.on), moment(row?.off)];
    }),
  ]);
  return csvText([head, ...rows]);
}
