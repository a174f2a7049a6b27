// SPDX-License-Identifier: Apache-2.0
// A time zone's offsets from UTC around a year, read out of the browser's own table of zones, for the engine, which
// keeps none.
import type { OffsetChange, ZoneChanges } from './times';

const daySeconds = 86_400;

/** Throws a RangeError where the browser does not know the zone. */
export function zoneChanges(name: string, year: number): ZoneChanges {
  const offsetAt = offsetReader(name);
  const nameAt = abbreviationReader(name);
  const from = Date.UTC(year - 1, 11, 1) / 1000;
  const to = Date.UTC(year + 1, 1, 1) / 1000;
  const changeAt = (at: number): OffsetChange => ({ from_s: at, offset_s: offsetAt(at), abbreviation: nameAt(at) });
  const changes = [changeAt(from)];
  // No zone has changed twice within a day.
  for (let day = from; day < to; day += daySeconds) {
    if (offsetAt(day) === offsetAt(day + daySeconds)) continue;
    changes.push(changeAt(firstSecondAfter(day, day + daySeconds, offsetAt)));
  }
  return { name, changes };
}

function firstSecondAfter(before: number, after: number, offsetAt: (at: number) => number): number {
  const old = offsetAt(before);
  let [low, high] = [before, after];
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (offsetAt(middle) === old) low = middle;
    else high = middle;
  }
  return high;
}

function offsetReader(name: string): (at: number) => number {
  const clock = new Intl.DateTimeFormat('en-US', {
    timeZone: name, calendar: 'gregory', numberingSystem: 'latn', hourCycle: 'h23',
    year: 'numeric', month: 'numeric', day: 'numeric', hour: 'numeric', minute: 'numeric', second: 'numeric',
  });
  return (at) => {
    const part = Object.fromEntries(clock.formatToParts(at * 1000).map(({ type, value }) => [type, Number(value)])) as Record<string, number>;
    return Date.UTC(part.year!, part.month! - 1, part.day!, part.hour!, part.minute!, part.second!) / 1000 - at;
  };
}

function abbreviationReader(name: string): (at: number) => string {
  const clock = new Intl.DateTimeFormat('en-US', { timeZone: name, timeZoneName: 'short' });
  return (at) => (clock.formatToParts(at * 1000).find(({ type }) => type === 'timeZoneName')?.value ?? '').slice(0, 12);
}
