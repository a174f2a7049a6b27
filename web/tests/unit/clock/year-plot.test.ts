// SPDX-License-Identifier: Apache-2.0
import { describe, expect, it } from 'vitest';
import type { DayRow, Times } from '../../../src/engine/times';
import { clockMinutes, crossings, darkStretches, linePath, litStretches, stretches } from '../../../src/clock/year-plot';
import { clockText, entryText } from '../../../src/clock/words';

const day = (date: string, sun: Partial<DayRow['sun']>, entries: DayRow['entries'] = []): DayRow => ({
  date, weekday: 'thu', clock_change_min: 0, sun: { state: 'rises_and_sets', noon: `${date}T12:00:00-06:00`, ...sun }, entries,
});
const timesOf = (days: readonly DayRow[]): Times => ({ year: 2026, days }) as unknown as Times;
const lit = (on: string, off: string) => ({ entry: 'e', state: 'lit' as const, on, off, hours: 1, words: '' });

describe('the picture of the year', () => {
  it('counts minutes by the clock, across midnight and a change of clocks', () => {
    expect(clockMinutes('2026-01-01T17:28:30-06:00', 2026)).toBe(17 * 60 + 28.5);
    expect(clockMinutes('2026-01-02T00:30:00-06:00', 2026)).toBe(1440 + 30);
    expect(clockMinutes('2026-03-08T03:00:00-05:00', 2026)).toBe(66 * 1440 + 180);
  });

  it('cuts at noon, and leaves out what is outside the year', () => {
    expect(stretches(700, 760, 365)).toEqual([{ column: 0, from: 0, to: 40 }]);
    expect(stretches(720 + 1400, 720 + 1500, 365)).toEqual([{ column: 0, from: 1400, to: 1440 }, { column: 1, from: 0, to: 60 }]);
  });

  it('puts the morning of a day into the night before it', () => {
    const days = [
      day('2026-01-01', {}, [lit('2026-01-01T17:00:00-06:00', '2026-01-01T23:00:00-06:00')]),
      day('2026-01-02', {}, [lit('2026-01-02T05:45:00-06:00', '2026-01-02T07:00:00-06:00')]),
    ];
    expect(litStretches(timesOf(days), 'e')).toEqual([{ column: 0, from: 300, to: 660 }, { column: 0, from: 1065, to: 1140 }]);
  });

  it('darkens each night from its sunset to the sunrise after it', () => {
    const days = [
      day('2026-01-01', { sunset: '2026-01-01T17:00:00-06:00', sunrise: '2026-01-01T07:10:00-06:00' }),
      day('2026-01-02', { sunset: '2026-01-02T17:01:00-06:00', sunrise: '2026-01-02T07:10:00-06:00' }),
    ];
    expect(crossings(timesOf(days), 'sunrise')).toEqual([1150, undefined]);
    expect(darkStretches(timesOf(days), 'sunset', 'sunrise')).toEqual([{ column: 0, from: 300, to: 1150 }, { column: 1, from: 301, to: 1150 }]);
  });

  it('shows a polar night dark all through and a polar day not at all', () => {
    const days = [day('2026-06-21', { state: 'polar_day' }), day('2026-12-21', { state: 'polar_night' })];
    expect(darkStretches(timesOf(days), 'sunset', 'sunrise')).toEqual([{ column: 1, from: 0, to: 1440 }]);
  });

  it('breaks a line where clocks jump', () => {
    expect(linePath([300, 301, 361, undefined, 362], 2, 1)).toBe('M1.0 300.0L3.0 301.0M5.0 361.0M9.0 362.0');
  });
});

describe('moments in words', () => {
  it('are to the nearest minute, as a timer has them', () => {
    expect(clockText('2026-03-08T19:27:45-05:00')).toBe('19:28');
    expect(clockText('2026-03-08T23:59:40-05:00')).toBe('00:00');
    expect(clockText(null)).toBe('–');
    expect(entryText({ entry: 'e', state: 'no_sunset', hours: 0, words: '' })).toBe('off, no sunset');
  });
});
