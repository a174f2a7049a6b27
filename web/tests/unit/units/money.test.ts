// SPDX-License-Identifier: Apache-2.0
import { expect, it } from 'vitest';
import { amountText, parseAmount } from '../../../src/units/money';

it.each([
  ['1265.30', 'USD', 126530],
  ['1265,3', 'EUR', 126530],
  ['7', 'USD', 700],
  ['1 265.30', 'USD', 126530],
  ['500', 'JPY', 500],
  ['1.234', 'KWD', 1234],
] as const)('%s %s is %i', (text, currency, minor) => {
  expect(parseAmount(text, currency)).toBe(minor);
});

it.each([['1.234', 'USD'], ['1.5', 'JPY'], ['', 'USD'], ['x', 'USD'], ['-3', 'USD'], ['1e3', 'USD']] as const)('"%s" is no amount of %s', (text, currency) => {
  expect(parseAmount(text, currency)).toBeUndefined();
});

it('shows what it read', () => {
  for (const minor of [0, 1, 99, 100, 126530]) expect(parseAmount(amountText(minor, 'USD'), 'USD')).toBe(minor);
});
