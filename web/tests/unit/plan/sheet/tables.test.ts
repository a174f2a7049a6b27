// SPDX-License-Identifier: Apache-2.0
import { expect, it } from 'vitest';
import { headMm, rowMm, tablePages } from '../../../../src/plan/sheet/table-pages';

it('puts both tables on one sheet where they fit to the row', () => {
  const room = 2 * headMm + 13 * rowMm + 0.01;
  expect(tablePages(3, 10, room)).toEqual([{ outputs: [0, 3], lamps: [0, 10] }]);
  expect(tablePages(3, 11, room)).toEqual([{ outputs: [0, 3], lamps: [0, 10] }, { outputs: [3, 3], lamps: [10, 11] }]);
});

it('loses no row over many sheets and repeats none', () => {
  const pages = tablePages(70, 1000, 230);
  for (const [list, count] of [['outputs', 70], ['lamps', 1000]] as const) {
    const rows = pages.flatMap((page) => Array.from({ length: page[list][1] - page[list][0] }, (_, index) => page[list][0] + index));
    expect(rows).toEqual(Array.from({ length: count }, (_, index) => index));
  }
  for (const { outputs, lamps } of pages) {
    const used = [outputs, lamps].map(([from, to]) => (to > from ? headMm + (to - from) * rowMm : 0));
    expect(used[0]! + used[1]!).toBeLessThanOrEqual(230);
  }
});

it('has no sheet for nothing, and ends on a sheet too low for a row', () => {
  expect(tablePages(0, 0, 230)).toEqual([]);
  expect(tablePages(1, 2, 5)).toHaveLength(3);
});
