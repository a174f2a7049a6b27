// SPDX-License-Identifier: Apache-2.0
// What differs between two documents of one job, as [JSON pointer, new value]. Edits share what they do not touch, so
// identity tells it: a drag gives one lamp and its cables, however large the garden is.
import type { JobDocument } from '../job/document';

export type ChangedPart = readonly [pointer: string, value: unknown];

/** Undefined where a part has come or gone, or another job begins: then the whole document must be sent. */
export function changedParts(before: JobDocument, after: JobDocument): readonly ChangedPart[] | undefined {
  if (before.id !== after.id) return undefined;
  const old = before as unknown as Readonly<Record<string, unknown>>;
  const parts: ChangedPart[] = [];
  let kept = 0;
  for (const [key, value] of Object.entries(after)) {
    if (value === undefined) continue;
    if (old[key] === undefined) return undefined;
    kept += 1;
    if (old[key] !== value) parts.push(...partsOf(key, old[key], value));
  }
  const had = Object.values(old).filter((value) => value !== undefined).length;
  return kept === had ? parts : undefined;
}

function partsOf(key: string, before: unknown, after: unknown): readonly ChangedPart[] {
  const place = `/${key.replaceAll('~', '~0').replaceAll('/', '~1')}`;
  const sameLength = Array.isArray(before) && Array.isArray(after) && before.length === after.length;
  if (!sameLength) return [[place, after]];
  const parts: ChangedPart[] = [];
  after.forEach((member: unknown, index) => {
    if (member !== before[index]) parts.push([`${place}/${index}`, member]);
  });
  return parts;
}
