// SPDX-License-Identifier: Apache-2.0
// Tables as CSV (RFC 4180) for a spreadsheet: a cell that such a program would take for a formula is made text.

export type Cell = string | number;

const cellText = (cell: Cell): string => {
  if (typeof cell === 'number') return String(cell);
  const safe = /^[=+\-@\t\r]/.test(cell) ? `'${cell}` : cell;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
};

export const csvText = (rows: readonly (readonly Cell[])[]): string => rows.map((row) => `${row.map(cellText).join(',')}\r\n`).join('');
