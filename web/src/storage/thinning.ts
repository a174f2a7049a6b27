// SPDX-License-Identifier: Apache-2.0
// Which earlier states of a job a browser may drop, since its room is small: of the last ten minutes each stays, of
// the last day one in ten minutes, before that one a day; and always the first and the newest twenty, for a clock that
// jumps makes new states old. The server keeps all.

export interface Dated {
  readonly revision: number;
  readonly changed: string;
}

export const newest = 20;
const minutes = 60_000;
const day = 24 * 60 * minutes;

/** The revisions to drop. `rows` ascend by revision. */
export function superfluous(rows: readonly Dated[], now: string): number[] {
  const end = Date.parse(now);
  const drop: number[] = [];
  for (let index = 1; index + newest < rows.length; index += 1) {
    // Of those in one span the last stays.
    const row = rows[index]!;
    const next = rows[index + 1]!;
    const span = spanOf(end - Date.parse(row.changed));
    if (span > 0 && bucket(row, span) === bucket(next, span)) drop.push(row.revision);
  }
  return drop;
}

function spanOf(age: number): number {
  if (age < 10 * minutes) return 0;
  return age < day ? 10 * minutes : day;
}

const bucket = (row: Dated, span: number): number => Math.floor(Date.parse(row.changed) / span);
