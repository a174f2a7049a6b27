// SPDX-License-Identifier: Apache-2.0
// All that hangs on one cable out of an output: cables, joints and lamps behind it, to be shown together.
import type { JobDocument } from '../job/document';
import type { ThingRef } from '../job/edits/move';

/** Never through an output: what lies behind it is another run. */
export function runParts(job: JobDocument, firstCable: string): readonly ThingRef[] {
  const cables = job.cables ?? [];
  const outputs = new Set((job.transformers ?? []).flatMap((transformer) => transformer.outputs.map(({ id }) => id)));
  const first = cables.find(({ id }) => id === firstCable);
  if (!first) return [];
  const cablesAt = new Map<string, typeof cables[number][]>();
  for (const cable of cables) {
    for (const end of [cable.from, cable.to]) cablesAt.set(end, [...(cablesAt.get(end) ?? []), cable]);
  }
  const seen = new Set<string>([first.id]);
  const ends = new Set<string>();
  const waiting = [first];
  for (let cable = waiting.pop(); cable; cable = waiting.pop()) {
    for (const end of [cable.from, cable.to]) {
      if (outputs.has(end) || ends.has(end)) continue;
      ends.add(end);
      for (const next of cablesAt.get(end) ?? []) {
        if (seen.has(next.id)) continue;
        seen.add(next.id);
        waiting.push(next);
      }
    }
  }
  return [
    ...[...seen].map((id): ThingRef => ({ kind: 'cable', id })),
    ...(job.joints ?? []).filter(({ id }) => ends.has(id)).map(({ id }): ThingRef => ({ kind: 'joint', id })),
    ...(job.luminaires ?? []).filter(({ id, joint }) => ends.has(id) || (joint !== undefined && ends.has(joint))).map(({ id }): ThingRef => ({ kind: 'luminaire', id })),
  ];
}
