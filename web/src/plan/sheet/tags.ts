// SPDX-License-Identifier: Apache-2.0
// What is written beside the marks of a printed plan: a tag short enough for a drawing, and what the engine says.
import { nameOf, thingsOf, type Thing } from '../../job/lookup';
import type { JobDocument, Point2 } from '../../job/document';
import { numberText, quantityText } from '../../units/quantity';
import type { Answers } from './answers';

const shortLetters = 6;
const mostLetters = 16;

/** The id where a hand gave it ("F5"); the name where the id is a row of random letters. */
export function tagOf(thing: Thing): string {
  const { id } = thing.value;
  if (id.length <= shortLetters) return id;
  const name = nameOf(thing);
  return name.length <= mostLetters ? name : `${name.slice(0, mostLetters - 1)}…`;
}

export const detailChoices = ['volts', 'tags', 'none'] as const;
export type Detail = (typeof detailChoices)[number];

export interface Tag {
  readonly id: string;
  readonly place: Point2;
  readonly text: string;
  /** After the tag, lighter. */
  readonly more: string;
}

/** Lights and transformers; joints only where a finding speaks of them, since colour alone would be lost in a copy. */
export function tagsOf(job: JobDocument, live: Pick<Answers, 'lamps' | 'transformers' | 'findingsOf'>, detail: Detail): Tag[] {
  if (detail === 'none') return [];
  const tags: Tag[] = [];
  for (const thing of thingsOf(job)) {
    const { position } = thing.value as { position?: readonly number[] };
    if (!position) continue;
    const text = tagOf(thing);
    const tag = { id: `${thing.kind}/${thing.value.id}`, place: [position[0]!, position[1]!] as const, text, more: '' };
    if (thing.kind === 'luminaire') {
      const lamp = live.lamps.get(thing.value.id);
      tags.push(lamp && detail === 'volts' ? { ...tag, more: quantityText(lamp.nominal_v, 'voltage', 'metric', 1) } : tag);
    } else if (thing.kind === 'transformer') {
      const load = live.transformers.get(thing.value.id);
      const more = load && `${numberText(load.load_va, 'apparent_power', 'metric', 0)} of ${quantityText(load.rating_va, 'apparent_power', 'metric', 0)}`;
      tags.push(more && detail === 'volts' ? { ...tag, more } : tag);
    } else if (thing.kind === 'joint' && live.findingsOf.has(thing.value.id)) tags.push({ ...tag, text: `! ${text}` });
  }
  return tags;
}
