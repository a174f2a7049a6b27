// SPDX-License-Identifier: Apache-2.0
// Editing the offer: one key at a time, so that keys this version does not know stay; options with their lights,
// extras, warranties and exclusions.
import type { JobDocument } from '../document';
import { randomId } from '../ids';
import type { OfferExtra, OfferOption, OptionKind } from '../offer';
import type { Command, Operation, Step } from '../operations';

/** Sets one key of the offer; undefined or an empty text takes it away. */
export const setInOffer = (label: string, path: readonly Step[], value: unknown): Command => ({
  label,
  changes: [{ op: 'set', path: ['offer', ...path], value: value === '' ? undefined : value }],
});

const kindTitles: Readonly<Record<OptionKind, string>> = { part: 'Part', phase: 'Phase', variant: 'Variant' };

export function addOption(job: JobDocument, kind: OptionKind): { readonly command: Command; readonly id: string } {
  const id = randomId('option');
  const number = (job.offer?.options ?? []).filter((option) => (option.kind ?? 'part') === kind).length + 1;
  const option: OfferOption = { id, kind, title: `${kindTitles[kind]} ${number}`, luminaires: [] };
  return { command: { label: `Add ${option.title}`, changes: [{ op: 'insert', path: ['offer', 'options'], value: option }] }, id };
}

export const removeOption = ({ id, title }: OfferOption): Command => ({ label: `Remove ${title || id}`, changes: [{ op: 'remove', path: ['offer', 'options', { id }] }] });

export const optionName = ({ id, title }: OfferOption): string => title || id;

/** Puts lights into an option or takes them out, in the job's order; what the job no longer has stays as it was. */
export function withLights(job: JobDocument, option: OfferOption, ids: readonly string[], wanted: boolean): Command {
  const before = option.luminaires ?? [];
  const held = new Set(before);
  for (const id of ids) {
    if (wanted) held.add(id);
    else held.delete(id);
  }
  const known = (job.luminaires ?? []).map(({ id }) => id);
  const gone = before.filter((id) => !known.includes(id) && held.has(id));
  const luminaires = [...known.filter((id) => held.has(id)), ...gone];
  return setInOffer(`Lights of ${optionName(option)}`, ['options', { id: option.id }, 'luminaires'], luminaires);
}

/** Of variants one at most is taken; parts and phases are taken each for itself. */
export function chooseOption(job: JobDocument, option: OfferOption, chosen: boolean): Command {
  const set = (id: string, value: boolean): Operation => ({ op: 'set', path: ['offer', 'options', { id }, 'chosen'], value: value || undefined });
  const others = chosen && option.kind === 'variant' ? (job.offer?.options ?? []).filter((other) => other.id !== option.id && other.kind === 'variant' && other.chosen) : [];
  return { label: `${chosen ? 'Take' : 'Leave'} ${optionName(option)}`, changes: [set(option.id, chosen), ...others.map(({ id }) => set(id, false))] };
}

export function addExtra(): Command {
  const extra: OfferExtra = { id: randomId('extra'), title: 'Extra', price_minor: 0 };
  return { label: 'Add an extra', changes: [{ op: 'insert', path: ['offer', 'extras'], value: extra }] };
}

export function removeExtra(job: JobDocument, id: string): Command {
  const extra = job.offer?.extras?.find((one) => one.id === id);
  return { label: `Remove ${extra?.title ?? id}`, changes: [{ op: 'remove', path: ['offer', 'extras', { id }] }] };
}

export const addWarranty = (): Command => ({ label: 'Add a warranty', changes: [{ op: 'insert', path: ['offer', 'terms', 'warranties'], value: { subject: 'Lights', years: 1 } }] });

export const removeWarranty = (index: number): Command => ({ label: 'Remove a warranty', changes: [{ op: 'remove', path: ['offer', 'terms', 'warranties', index] }] });

/** One exclusion a line; empty lines are none. */
export function setExclusions(text: string): Command {
  const exclusions = text.split('\n').map((line) => line.trim()).filter(Boolean);
  return setInOffer('Exclusions', ['terms', 'exclusions'], exclusions.length > 0 ? exclusions : undefined);
}
