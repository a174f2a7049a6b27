// SPDX-License-Identifier: Apache-2.0
import { describe, expect, it } from 'vitest';
import type { Price, PriceLine } from '../../../src/engine/price';
import { groupedLines, lineQuantity, marginState } from '../../../src/panes/price-words';

const line = (id: string, group: PriceLine['group'], price_minor: number, more: Partial<PriceLine> = {}): PriceLine => ({
  id, group, text: id, quantity: 1, unit: 'piece', unit_price_minor: 0, cost_minor: 0, price_minor, reason: '', ...more,
});
const lines = [
  line('luminaire/bullet', 'material', 100), line('sundries', 'material', 10), line('work/fixtures', 'labour', 50), line('work/travel', 'labour', 20),
  line('work/contingency', 'labour', 5), line('trips', 'extra', 7), line('extra/x', 'extra', -3), line('tax', 'tax', 11),
];
const price = { lines, margin_pct: 44.9, margin_floor_pct: 45 } as unknown as Price;

describe('a price in groups', () => {
  it('holds every line once, and the sums add up', () => {
    const groups = groupedLines(price);
    expect(groups.map(({ group, price_minor }) => [group, price_minor])).toEqual([
      ['materials', 110], ['labour', 50], ['travel', 27], ['contingency', 5], ['extras', -3], ['tax', 11],
    ]);
    expect(groups.flatMap((group) => group.lines).length).toBe(lines.length);
  });

  it('says quantities with their units', () => {
    const text = (quantity: number, unit: string) => lineQuantity(line('x', 'material', 0, { quantity, unit }), 'metric').replaceAll('\u00a0', ' ');
    expect([text(12.5, 'm'), text(2.25, 'h'), text(1, 'trip'), text(3, 'piece'), text(6.25, '%'), text(1, 'lump')]).toEqual(['12.5 m', '2.25 h', '1 trip', '3 pieces', '6.25 %', '']);
  });

  it('warns in words where the margin is under its floor', () => {
    expect(marginState(price)).toEqual({ good: false, words: '44.9\u00a0%, below the floor of 45\u00a0%' });
    expect(marginState({ ...price, margin_pct: 45 }).good).toBe(true);
    expect(marginState({ ...price, margin_floor_pct: null }).words).toContain('no floor');
  });
});
