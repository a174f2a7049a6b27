// SPDX-License-Identifier: Apache-2.0
// Edits of one property of one thing or of many: what they have in common, and the command that sets it. Only the key
// that changed is touched; SI numbers go in as they are.
import { withItem, type Item, type Section } from '../job/catalogue';
import type { JobDocument } from '../job/document';
import { endsOf, nameOf, type Thing } from '../job/lookup';
import type { Command, Operation, Path } from '../job/operations';
import { kindNames, type PropertyField } from './property-fields';

export type Common = { readonly mixed: false; readonly value: unknown } | { readonly mixed: true; readonly value: undefined };

const stepsOf = (field: PropertyField): Path => (field.kind === 'number' && field.at !== undefined ? [field.key, field.at] : [field.key]);

export function valueOf(thing: Thing, field: PropertyField): unknown {
  return stepsOf(field).reduce<unknown>((value, step) => (value as Record<string | number, unknown> | undefined)?.[step as string], thing.value);
}

/** What all of them have, or that they differ. */
export function commonOf(things: readonly Thing[], field: PropertyField): Common {
  const values = things.map((thing) => valueOf(thing, field));
  return values.every((value) => value === values[0]) ? { mixed: false, value: values[0] } : { mixed: true, value: undefined };
}

/** A field of a position makes sense only where each has a place of that many numbers. */
export const applies = (things: readonly Thing[], field: PropertyField): boolean =>
  field.kind !== 'number' || field.at === undefined || things.every((thing) => typeof valueOf(thing, field) === 'number');

export function whoText(things: readonly Thing[]): string {
  const [first] = things;
  if (!first) return 'nothing';
  return things.length === 1 ? nameOf(first) : `${things.length} ${kindNames[first.kind][1]}`;
}

export function settingOf(things: readonly Thing[], field: PropertyField, value: unknown): Command {
  return {
    label: `${field.label} of ${whoText(things)}`,
    changes: things.filter((thing) => valueOf(thing, field) !== value).map((thing) => ({ op: 'set', path: [...thing.path, ...stepsOf(field)], value })),
  };
}

/** The same for a choice; a cable that begins or ends elsewhere is drawn from there. */
export function choiceSettingOf(job: JobDocument, things: readonly Thing[], field: PropertyField, value: unknown): Command {
  const { label, changes } = settingOf(things, field, value);
  const place = field.key === 'from' || field.key === 'to' ? endsOf(job).get(String(value)) : undefined;
  if (!place) return { label, changes };
  const drawn = things.flatMap((thing) => (thing.kind === 'cable' && thing.value.path && thing.value.path.length > 1 ? [thing] : []));
  const redrawn = drawn.map(({ path, value: cable }): Operation => {
    const corners = cable.path!;
    const moved = field.key === 'from' ? [place, ...corners.slice(1)] : [...corners.slice(0, -1), place];
    return { op: 'set', path: [...path, 'path'], value: moved };
  });
  return { label, changes: changes.length > 0 ? [...changes, ...redrawn] : changes };
}

/** Another article for all of them; the job gets its own copy of it. */
export function itemSettingOf(job: JobDocument, things: readonly Thing[], field: PropertyField & { kind: 'item' }, item: Item | undefined): Command {
  const { label, changes } = settingOf(things, field, item?.id);
  return { label, changes: item && changes.length > 0 ? [...withItem(job, field.section, item), ...changes] : changes };
}

/** A change of the job's own copy of an article: key by key, so that nothing else of it is touched. */
export function itemEditOf(section: Section, before: Item, after: Item): Command {
  const [old, next] = [before, after] as unknown as readonly [Record<string, unknown>, Record<string, unknown>];
  const keys = [...new Set([...Object.keys(old), ...Object.keys(next)])].filter((key) => old[key] !== next[key]);
  return {
    label: `${before.title ?? before.id} in this job`,
    changes: keys.map((key) => ({ op: 'set', path: ['catalogue', section, { id: before.id }, key], value: next[key] })),
  };
}

/** A number of the document in SI, and back; noise of the last binary digit is not kept where units are changed. */
export const siOf = (value: unknown, perSi: number | undefined): number | undefined =>
  typeof value !== 'number' ? undefined : perSi === undefined ? value : value / perSi;
export const documentOf = (si: number, perSi: number | undefined, whole: boolean | undefined): number => {
  if (whole) return Math.round(si);
  return perSi === undefined ? si : Number((si * perSi).toPrecision(15));
};
