// SPDX-License-Identifier: Apache-2.0
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { itemsOf, overlaid, search, sections, withItem } from '../../../src/job/catalogue';
import type { CatalogueFile } from '../../../src/job/document';
import { itemFields } from '../../../src/ui/item-fields';
import { garden } from '../support/garden';

const stock = JSON.parse(readFileSync('../data/catalogue/stock.json', 'utf8')) as CatalogueFile;

describe('the catalogue', () => {
  it('puts the shop’s items in place of the stock’s, and its own behind them', () => {
    const [first] = itemsOf(stock, 'luminaires');
    const mine = { ...first!, price_minor: 1 };
    const own = { ...first!, id: 'own' };
    const all = overlaid(stock, { luminaires: [mine, own] });
    expect(itemsOf(all, 'luminaires')).toHaveLength(itemsOf(stock, 'luminaires').length + 1);
    expect(itemsOf(all, 'luminaires')[0]).toBe(mine);
    expect(itemsOf(all, 'luminaires').at(-1)).toBe(own);
    expect(itemsOf(all, 'cables')).toEqual(stock.cables);
  });

  it('copies an item into a job once', () => {
    const cable = itemsOf(stock, 'cables')[0]!;
    expect(withItem(garden(), 'cables', cable)).toHaveLength(1);
    expect(withItem({ ...garden(), catalogue: { cables: [cable] } }, 'cables', cable)).toEqual([]);
  });

  it('finds by every word in id, name or kind', () => {
    const lights = itemsOf(stock, 'luminaires');
    const found = search(lights, 'tree 2700');
    for (const { id, title, kind } of search(lights, 'tree downlight')) expect(`${id} ${title} ${kind}`.toLowerCase()).toContain('tree');
    expect(search(lights, 'tree downlight').length).toBeGreaterThan(0);
    expect(found.length).toBeLessThanOrEqual(lights.length);
    expect(search(lights, 'no such thing')).toEqual([]);
    expect(search(lights, '')).toBe(lights);
  });

  it('has a field for every key of the stock that a person may change', () => {
    const unshown = new Set(['id', 'fills', 'efficiency', 'outer_diameter_mm']);
    for (const section of sections) {
      const keys = new Set(itemsOf(stock, section).flatMap((item) => Object.keys(item)));
      const shown = new Set(itemFields[section].map(({ key }) => key));
      expect([...keys].filter((key) => !shown.has(key) && !unshown.has(key)), section).toEqual([]);
    }
  });
});
