// SPDX-License-Identifier: Apache-2.0
// How the tables of a job are cut into sheets: outputs first, then lamps, every sheet with its own heads.

export const rowMm = 4.6;
/** Heading and column heads of one table, with the white before it. */
export const headMm = 17;

export interface TablePage {
  /** First and one past the last row on this sheet. */
  readonly outputs: readonly [number, number];
  readonly lamps: readonly [number, number];
}

export function tablePages(outputCount: number, lampCount: number, roomMm: number): TablePage[] {
  const pages: TablePage[] = [];
  let [output, lamp] = [0, 0];
  while (output < outputCount || lamp < lampCount) {
    let leftMm = roomMm;
    const take = (rowsLeft: number): number => {
      const rows = Math.max(0, Math.min(rowsLeft, Math.floor((leftMm - headMm) / rowMm)));
      if (rows > 0) leftMm -= headMm + rows * rowMm;
      return rows;
    };
    let outputs = take(outputCount - output);
    let lamps = outputs < outputCount - output ? 0 : take(lampCount - lamp);
    // A sheet too low for a single row: it gets one all the same, or this would never end.
    if (outputs + lamps === 0) [outputs, lamps] = output < outputCount ? [1, 0] : [0, 1];
    pages.push({ outputs: [output, output + outputs], lamps: [lamp, lamp + lamps] });
    output += outputs;
    lamp += lamps;
  }
  return pages;
}
