// SPDX-License-Identifier: Apache-2.0
import { describe, expect, it } from 'vitest';
import { parseQuantity } from '../../../src/units/parse';
import { editText, quantityText } from '../../../src/units/quantity';

// Expected metres on their own: 1 ft = 0.3048 m and 1 in = 0.0254 m, exact by the international yard of 1959.
describe('lengths', () => {
  it.each([
    ['3.5', 'metric', 3.5],
    ['3,5', 'metric', 3.5],
    ['10', 'us', 3.048],
    ["12' 6\"", 'us', 3.81],
    ['12 ft 6 in', 'metric', 3.81],
    ["12'6", 'us', 3.81],
    ['350 mm', 'us', 0.35],
    ['14in', 'metric', 0.3556],
    ['-2 m', 'us', -2],
  ] as const)('%s in %s is %f m', (text, system, metres) => {
    expect(parseQuantity(text, 'length', system)).toBeCloseTo(metres, 12);
  });

  it.each(['', 'x', '3 V', '3 4', "12' 6 m", '1.2.3', '5 lx'])('"%s" is no length', (text) => {
    expect(parseQuantity(text, 'length', 'us')).toBeUndefined();
  });
});

describe('other quantities', () => {
  it('read their own unit, and temperatures and light in both', () => {
    expect(parseQuantity('13 V', 'voltage', 'us')).toBe(13);
    expect(parseQuantity('68', 'temperature', 'us')).toBeCloseTo(20, 12);
    expect(parseQuantity('20 °C', 'temperature', 'us')).toBe(20);
    expect(parseQuantity('1 fc', 'illuminance', 'metric')).toBeCloseTo(10.763910417, 8);
    expect(parseQuantity('13 A', 'voltage', 'us')).toBeUndefined();
  });
});

describe('shown text', () => {
  it('rounds for the eye and keeps the sign of nothing away', () => {
    expect(quantityText(3.048, 'length', 'us')).toBe('10.0\u00a0ft');
    expect(quantityText(-0.0001, 'voltage', 'metric')).toBe('0.00\u00a0V');
    expect(quantityText(36, 'angle', 'metric')).toBe('36.0°');
  });

  it('shows what was typed again', () => {
    expect(editText(parseQuantity('12.5', 'length', 'us')!, 'length', 'us')).toBe('12.5');
  });
});
