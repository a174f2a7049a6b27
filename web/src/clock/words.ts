// SPDX-License-Identifier: Apache-2.0
// Days and moments of the clock in words.
import type { DayRow, EntryTimes } from '../engine/times';
import type { Weekday } from '../job/programme';

export const monthNames = ['January', 'February', 'March', 'April', 'May', 'June', 'July', 'August', 'September', 'October', 'November', 'December'] as const;

export const dayNames: Readonly<Record<Weekday, string>> = { mon: 'Mon', tue: 'Tue', wed: 'Wed', thu: 'Thu', fri: 'Fri', sat: 'Sat', sun: 'Sun' };

/** "8 March" of "2026-03-08". */
export const dateWords = (date: string): string => `${Number(date.slice(8, 10))} ${monthNames[Number(date.slice(5, 7)) - 1] ?? ''}`;

/** "19:28" of "2026-03-08T19:28:05-05:00", to the nearest minute as a timer has it; a dash for none. */
export function clockText(moment: string | null | undefined): string {
  if (!moment) return '–';
  const seconds = Number(moment.slice(11, 13)) * 3600 + Number(moment.slice(14, 16)) * 60 + Number(moment.slice(17, 19));
  const minutes = Math.round(seconds / 60) % 1440;
  return `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`;
}

export function entryText({ state, on, off }: EntryTimes): string {
  if (state === 'no_sunset') return 'off, no sunset';
  if (state === 'over_before_it_begins') return 'off, over before it begins';
  return `${clockText(on)} to ${clockText(off)}`;
}

export function sunText({ sun }: DayRow): string {
  if (sun.state === 'polar_day') return 'The sun does not set';
  if (sun.state === 'polar_night') return 'The sun does not rise';
  return `Sunset ${clockText(sun.sunset)}, sunrise ${clockText(sun.sunrise)}`;
}

export function clockChangeText({ clock_change_min: by }: DayRow): string {
  if (by === 0) return '';
  return `Clocks go ${by > 0 ? 'forward' : 'back'} by ${Math.abs(by)} min.`;
}

/** "40° north, 89° west". */
export function placeWords(latitudeDeg: number, longitudeDeg: number): string {
  const degrees = (value: number): string => `${Number(Math.abs(value).toFixed(4))}°`;
  return `${degrees(latitudeDeg)} ${latitudeDeg < 0 ? 'south' : 'north'}, ${degrees(longitudeDeg)} ${longitudeDeg < 0 ? 'west' : 'east'}`;
}
