// SPDX-License-Identifier: Apache-2.0
import { describe, expect, test } from 'vitest';
import type { JobDocument, Point2 } from '../../../src/job/document';
import { checkScale, meanScale, setScale } from '../../../src/job/edits/picture-scale';
import { applyOperations } from '../../../src/job/operations';
import { JobStore } from '../../../src/job/store.svelte';
import { garden } from '../support/garden';

const job: JobDocument = {
  ...garden(),
  plan: {
    underlay: { image: 'x', m_per_px: 0.02, origin: [1, 9] },
    property_line: [[0, 0], [10, 0], [10, 10]],
    areas: [{ id: 'a', kind: 'bed', outline: [[3, 5], [5, 5], [5, 8]] }],
    trees: [{ id: 't', position: [7, 8], crown_width_m: 4 }],
  },
  luminaires: [{ id: 'F1', item: 'a', position: [5, 9, 0.5] }],
  cables: [{ id: 'c', item: 'k', from: 'o', to: 'F1', path: [[3, 5], [5, 9]], length_m: 6 }],
};
const [a, b]: [Point2, Point2] = [[3, 5], [7, 8]];
const wish = { a, b, lengthM: 10, withDrawing: false };

describe('setting it', () => {
  test('two points get their true distance, and the first stays on its pixel', () => {
    const { underlay } = applyOperations(job, setScale(job, wish)!.changes).document.plan!;
    expect(underlay!.m_per_px).toBeCloseTo(0.04, 12);
    // Pixels from the top left corner to the first point: before and after.
    const before = [(3 - 1) / 0.02, (9 - 5) / 0.02];
    const after = [(3 - underlay!.origin![0]) / underlay!.m_per_px, (underlay!.origin![1] - 5) / underlay!.m_per_px];
    expect(after[0]).toBeCloseTo(before[0]!, 9);
    expect(after[1]).toBeCloseTo(before[1]!, 9);
  });

  test('nothing comes of two equal points, of no length, or of no picture', () => {
    expect(setScale(job, { ...wish, b: a })).toBeUndefined();
    expect(setScale(job, { ...wish, lengthM: 0 })).toBeUndefined();
    expect(setScale(garden(), wish)).toBeUndefined();
  });

  test('what is drawn stays on the ground', () => {
    const { document } = applyOperations(job, setScale(job, wish)!.changes);
    expect({ ...document, plan: { ...document.plan, underlay: undefined } }).toEqual({ ...job, plan: { ...job.plan, underlay: undefined } });
  });

  test('or goes along about the first point in one step of undo; measured lengths, heights and widths stay', () => {
    const store = new JobStore(job);
    store.run(setScale(job, { ...wish, withDrawing: true })!);
    const { plan, luminaires, cables } = store.document;
    expect(plan!.property_line).toEqual([[-3, -5], [17, -5], [17, 15]]);
    expect(plan!.areas![0]!.outline).toEqual([[3, 5], [7, 5], [7, 11]]);
    expect(plan!.trees![0]).toEqual({ id: 't', position: [11, 11], crown_width_m: 4 });
    expect(luminaires![0]!.position).toEqual([7, 13, 0.5]);
    expect(cables![0]).toEqual({ ...job.cables![0], path: [[3, 5], [7, 13]], length_m: 6 });
    store.undo();
    expect(store.document).toEqual(job);
    expect(store.undoLabel).toBeUndefined();
  });
});

describe('checking it', () => {
  test('says by how much the picture is off, and what a tape explains', () => {
    expect(checkScale(a, b, 4)).toMatchObject({ shownM: 5, withinTape: false });
    expect(checkScale(a, b, 4)!.offPct).toBeCloseTo(25, 12);
    expect(checkScale(a, b, 5.04)!.offPct).toBeCloseTo(-0.79365, 5);
    expect(checkScale(a, b, 5.04)!.withinTape).toBe(true);
    expect(checkScale(a, a, 4)).toBeUndefined();
    expect(checkScale(a, b, 0)).toBeUndefined();
  });

  test('the mean lies half way between both scales', () => {
    const { document } = applyOperations(job, meanScale(job, wish)!.changes);
    expect(document.plan!.underlay!.m_per_px).toBeCloseTo((0.02 + 0.04) / 2, 12);
    expect(meanScale(job, { ...wish, lengthM: 0 })).toBeUndefined();
  });
});
