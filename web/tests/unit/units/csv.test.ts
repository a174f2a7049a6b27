// SPDX-License-Identifier: Apache-2.0
import { describe, expect, it } from 'vitest';
import { csvText } from '../../../src/units/csv';
import { parseSignedAmount } from '../../../src/units/money';

describe('tables as CSV', () => {
  it('quotes as RFC 4180 asks', () => {
    expect(csvText([['a', 'b'], ['x, y', 'say "so"'], ['two\nlines', 1.5]])).toBe('a,b\r\n"x, y","say ""so"""\r\n"two\nlines",1.5\r\n');
  });

  it('makes text of what a spreadsheet would run, and leaves numbers alone', () => {
    expect(csvText([['=1+1', '@x', -3]])).toBe("'=1+1,'@x,-3\r\n");
  });
});

describe('amounts of either sign', () => {
  it('are read with either minus', () => {
    expect([parseSignedAmount('-12.50', 'USD'), parseSignedAmount('−3', 'USD'), parseSignedAmount('4', 'USD'), parseSignedAmount('-', 'USD'), parseSignedAmount('-0', 'USD')]).toEqual([-1250, -300, 400, undefined, 0]);
  });
});
