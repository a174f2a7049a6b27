// SPDX-License-Identifier: Apache-2.0
import { describe, expect, it } from 'vitest';
import { brokenLines } from '../../../src/photo/caption';

const measure = (text: string): number => text.length;

describe('a caption', () => {
  it('is broken between words, none lost', () => {
    const text = 'Light that bounces between surfaces is left out of it.';
    const lines = brokenLines(text, 20, measure);
    expect(lines.every((line) => line.length <= 20)).toBe(true);
    expect(lines.join(' ')).toBe(text);
  });

  it('keeps a word that is wider than the picture', () => {
    expect(brokenLines('a incomprehensibilities b', 6, measure)).toEqual(['a', 'incomprehensibilities', 'b']);
    expect(brokenLines('  ', 6, measure)).toEqual([]);
  });
});
