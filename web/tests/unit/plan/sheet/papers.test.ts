// SPDX-License-Identifier: Apache-2.0
import { describe, expect, it } from 'vitest';
import { layoutOf, paperIds, papers, pxPerMm, type Box } from '../../../../src/plan/sheet/papers';

const right = (box: Box): number => box.xMm + box.widthMm;
const bottom = (box: Box): number => box.yMm + box.heightMm;

it('has the sizes that printers know', () => {
  // A4 and A3: ISO 216. Letter 8.5 by 11 in and Tabloid 11 by 17 in: ANSI/ASME Y14.1 [from memory].
  expect([papers.a4.widthMm, papers.a4.heightMm]).toEqual([210, 297]);
  expect([papers.a3.widthMm, papers.a3.heightMm]).toEqual([297, 420]);
  expect(papers.letter.widthMm).toBeCloseTo(215.9, 9);
  expect(papers.letter.heightMm).toBeCloseTo(279.4, 9);
  expect(papers.tabloid.widthMm).toBeCloseTo(279.4, 9);
  expect(papers.tabloid.heightMm).toBeCloseTo(431.8, 9);
});

it('takes 96 px for an inch of 25.4 mm (CSS Values and Units 3, 5.2)', () => {
  expect(pxPerMm * 25.4).toBeCloseTo(96, 9);
});

describe.each(paperIds.flatMap((paper) => (['portrait', 'landscape'] as const).map((turn) => ({ paper, turn }))))('$paper $turn', ({ paper, turn }) => {
  const layout = layoutOf(paper, turn);

  it('fills the frame with plan, key and title, and nothing lies on another', () => {
    const { frame, plan, key, title } = layout;
    const size = ({ widthMm, heightMm }: Box): number => widthMm * heightMm;
    expect(size(plan) + size(key) + size(title)).toBeCloseTo(size(frame), 6);
    for (const box of [plan, key, title]) {
      expect(box.xMm).toBeGreaterThanOrEqual(frame.xMm - 1e-9);
      expect(box.yMm).toBeGreaterThanOrEqual(frame.yMm - 1e-9);
      expect(right(box)).toBeLessThanOrEqual(right(frame) + 1e-9);
      expect(bottom(box)).toBeLessThanOrEqual(bottom(frame) + 1e-9);
    }
    expect([right(title), bottom(title)]).toEqual([right(frame), bottom(frame)]);
  });

  it('keeps 10 mm of white at every edge, under the check bar too, and has room for its 100 mm', () => {
    const { frame, check, widthMm, heightMm } = layout;
    expect(Math.min(frame.xMm, frame.yMm)).toBe(10);
    expect(widthMm - right(frame)).toBeCloseTo(10, 9);
    expect(heightMm - bottom(check)).toBeCloseTo(10, 9);
    expect(check.widthMm).toBeGreaterThan(150);
  });
});
