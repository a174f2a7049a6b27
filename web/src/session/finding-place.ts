// SPDX-License-Identifier: Apache-2.0
// The thing that a finding or a problem points at. Ids are unique within a kind only, so the pointer decides; the
// subject's id helps where the pointer leads to no thing.
import type { JobDocument } from '../job/document';
import { findThing, thingsOf, type Thing } from '../job/lookup';

interface Pointing {
  readonly pointer: string;
  readonly subject?: string;
}

/** The innermost thing on the way of the pointer. */
export function thingAt(job: JobDocument, { pointer, subject }: Pointing): Thing | undefined {
  const onTheWay = new Set<unknown>();
  let value: unknown = job;
  for (const step of pointer.split('/').slice(1)) {
    value = (value as Record<string, unknown> | null | undefined)?.[step.replaceAll('~1', '/').replaceAll('~0', '~')];
    if (typeof value === 'object' && value !== null) onTheWay.add(value);
  }
  const met = [...thingsOf(job)].filter((thing) => onTheWay.has(thing.value));
  return met.find(({ kind }) => kind === 'output') ?? met[0] ?? (subject === undefined ? undefined : findThing(job, subject));
}
