// SPDX-License-Identifier: Apache-2.0
// Offsets read out of the runtime's table of zones. The instants are those of the tz database (Chicago: the second
// Sunday of March and the first of November at 2:00; Sydney: the first Sundays of April and October; Kolkata: none).
import { describe, expect, it } from 'vitest';
import { zoneChanges } from '../../../src/engine/zone-changes';

const iso = (seconds: number): string => new Date(seconds * 1000).toISOString();
const inYear = (name: string, year: number) => zoneChanges(name, year).changes.filter(({ from_s }) => iso(from_s).startsWith(`${year}`));

describe('changes of a zone', () => {
  it('gives Chicago its two changes to the second', () => {
    expect(inYear('America/Chicago', 2026).map(({ from_s, offset_s, abbreviation }) => [iso(from_s), offset_s, abbreviation])).toEqual([
      ['2026-03-08T08:00:00.000Z', -5 * 3600, 'CDT'],
      ['2026-11-01T07:00:00.000Z', -6 * 3600, 'CST'],
    ]);
    expect(zoneChanges('America/Chicago', 2026).changes[0]).toMatchObject({ offset_s: -6 * 3600, abbreviation: 'CST' });
  });

  it('gives Sydney its two, the other way round', () => {
    expect(inYear('Australia/Sydney', 2026).map(({ from_s, offset_s }) => [iso(from_s), offset_s])).toEqual([
      ['2026-04-04T16:00:00.000Z', 10 * 3600],
      ['2026-10-03T16:00:00.000Z', 11 * 3600],
    ]);
  });

  it('gives a zone without changes one offset, of half an hour too', () => {
    expect(zoneChanges('Asia/Kolkata', 2026).changes).toMatchObject([{ offset_s: 5.5 * 3600 }]);
  });

  it('refuses a zone that is not known', () => {
    expect(() => zoneChanges('Nowhere/Atlantis', 2026)).toThrow(RangeError);
  });
});
