// SPDX-License-Identifier: Apache-2.0
// What can be held fast, in words, and the things of a job that can be held.
import type { JobDocument } from '../job/document';
import { nameOf, thingsOf, type ThingKind } from '../job/lookup';
import type { PinKind } from '../session/wishes';

export const pinWords: Readonly<Record<PinKind, string>> = {
  kept_cables: 'Stays as it is',
  forbidden_trenches: 'No trench along it',
  own_outputs: 'Gets an output of its own',
  kept_transformers: 'Stays, article and place',
};

export const kindTitles: Readonly<Partial<Record<ThingKind, string>>> = { cable: 'Cable', luminaire: 'Light', transformer: 'Transformer' };

const order: readonly ThingKind[] = ['transformer', 'cable', 'luminaire'];

/** Transformers, cables and lights, each under its kind and id. */
export function thingsToPin(job: JobDocument): readonly { readonly value: string; readonly label: string }[] {
  const things = [...thingsOf(job)].filter(({ kind }) => order.includes(kind));
  return things
    .toSorted((a, b) => order.indexOf(a.kind) - order.indexOf(b.kind))
    .map((thing) => {
      const { id } = thing.value;
      const name = nameOf(thing);
      return { value: `${thing.kind}/${id}`, label: `${kindTitles[thing.kind]} ${name === id ? id : `${id}, ${name}`}` };
    });
}
