// SPDX-License-Identifier: Apache-2.0
import { describe, expect, it } from 'vitest';
import type { PriceBand } from '../../../src/engine/price';
import { bandRequest, besideBand, notesOf } from '../../../src/offer/price-band';
import { garden } from '../support/garden';

const band: PriceBand = { currency: 'USD', lamps_low: 4, lamps_high: 8, low_minor: 60_000, usual_minor: 195_000, high_minor: 320_000, parts: [], widens: [], narrows: [], basis: '' };

describe('the price band', () => {
  it('begins with the wishes of the client', () => {
    const job = { ...garden(), client: { wishes: [{ text: 'The steps are dark.' }, { text: 'We love the oak.' }] } };
    expect(notesOf(job).words).toBe('The steps are dark.\nWe love the oak.');
    expect(notesOf({ ...garden(), client: {} }).words).toBe('');
  });

  it('asks with a metre as the known size, so that a height in metres is what was measured', () => {
    const asked = bandRequest({ ...notesOf(garden()), words: 'The oak.', treeHeightM: 12, outletKnown: true });
    expect(asked.known_m / asked.known.size_px).toBe(1);
    expect(asked.things).toEqual([{ name: 'the tallest tree', size_px: 12 }]);
    expect(asked).toMatchObject({ note: 'The oak.', outlet_known: true, water_known: false, depth_error_share: 0 });
    expect(bandRequest(notesOf(garden())).things).toBeUndefined();
  });

  it('says how the job as drawn stands to it, and compares no two currencies', () => {
    expect(besideBand(band, { total_minor: 59_999, currency: 'USD' })).toMatch(/USD.599\.99: below the band\.$/);
    expect(besideBand(band, { total_minor: 60_000, currency: 'USD' })).toMatch(/within the band\.$/);
    expect(besideBand(band, { total_minor: 320_001, currency: 'USD' })).toMatch(/above the band\.$/);
    expect(besideBand(band, { total_minor: 100_000, currency: 'EUR' })).toMatch(/in USD: the two are not compared\.$/);
  });
});
