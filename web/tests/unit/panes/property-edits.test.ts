// SPDX-License-Identifier: Apache-2.0
// Edits of properties, one thing or many: only what was changed is touched, and SI numbers stay what they were.
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import schema from '../../../../docs/schema/job-v1.schema.json' with { type: 'json' };
import type { Item } from '../../../src/job/catalogue';
import { difference } from '../../../src/job/difference';
import type { JobDocument } from '../../../src/job/document';
import { findThing, type ThingKind } from '../../../src/job/lookup';
import { applyOperations } from '../../../src/job/operations';
import { applies, commonOf, documentOf, itemEditOf, itemSettingOf, settingOf, siOf } from '../../../src/panes/property-edits';
import { propertyFields, type PropertyField } from '../../../src/panes/property-fields';

const job = JSON.parse(readFileSync('../examples/ostrey-garden.json', 'utf8')) as JobDocument;
const field = (kind: ThingKind, key: string): PropertyField => propertyFields[kind].find((one) => one.key === key)!;
const lamps = ['A1', 'A2', 'F5'].map((id) => findThing(job, id, 'luminaire')!);

describe('a property of several things', () => {
  it('is shown where they agree, and said to differ where they do not', () => {
    expect(commonOf(lamps.slice(0, 1), field('luminaire', 'item'))).toEqual({ mixed: false, value: job.luminaires!.find(({ id }) => id === 'A1')!.item });
    expect(commonOf(lamps, field('luminaire', 'name')).mixed).toBe(true);
  });

  it('is set for all of them in one command, which touches nothing else', () => {
    const command = settingOf(lamps, field('luminaire', 'tilt_deg'), 12.3456789012345);
    expect(command.label).toBe('Aim, up from level of 3 lights');
    const { document, inverse } = applyOperations(job, command.changes);
    expect(lamps.map(({ value }) => findThing(document, value.id, 'luminaire')!.value)).toEqual(lamps.map(({ value }) => ({ ...value, tilt_deg: 12.3456789012345 })));
    expect(applyOperations(document, inverse).document).toEqual(job);
    expect(difference(job, document)).toHaveLength(3);
  });

  it('is not set again where it is that already', () => {
    expect(settingOf(lamps, field('luminaire', 'name'), (lamps[0]!.value as { name?: string }).name).changes).toHaveLength(2);
  });

  it('sets one axis of a position and leaves the others', () => {
    const across = propertyFields.luminaire.find((one) => one.kind === 'number' && one.at === 0)!;
    const { document } = applyOperations(job, settingOf(lamps.slice(0, 1), across, 1.25).changes);
    const [, y, z] = job.luminaires!.find(({ id }) => id === 'A1')!.position!;
    expect(document.luminaires!.find(({ id }) => id === 'A1')!.position).toEqual([1.25, y, z]);
    expect(applies([{ kind: 'luminaire', path: [], value: { id: 'x', item: 'y' } }], across)).toBe(false);
  });
});

describe('another article', () => {
  const choice = field('luminaire', 'item') as PropertyField & { kind: 'item' };
  const item = { ...job.catalogue!.luminaires![0]!, id: 'new-one', title: 'New one' } as Item;

  it('comes into the job with its first user, once', () => {
    const { document } = applyOperations(job, itemSettingOf(job, lamps, choice, item).changes);
    expect(document.catalogue!.luminaires!.filter(({ id }) => id === 'new-one')).toHaveLength(1);
    const again = lamps.map(({ value }) => findThing(document, value.id, 'luminaire')!);
    expect(itemSettingOf(document, again, choice, item).changes).toEqual([]);
  });

  it('is changed in the job key by key: what this version does not know stays', () => {
    const before = { ...job.catalogue!.luminaires![0]!, x_unknown: { deep: 1 } } as Item;
    const command = itemEditOf('luminaires', before, { ...before, title: 'Other' } as Item);
    expect(command.changes).toEqual([{ op: 'set', path: ['catalogue', 'luminaires', { id: before.id }, 'title'], value: 'Other' }]);
  });
});

describe('numbers', () => {
  it('of keys in millimetres come back as they went in', () => {
    for (const millimetres of [12.7, 25, 33.3, 40, 103]) expect(documentOf(siOf(millimetres, 1000)!, 1000, false)).toBe(millimetres);
    expect(documentOf(2.6, undefined, true)).toBe(3);
    expect(documentOf(0.1 + 0.2, undefined, false)).toBe(0.1 + 0.2);
  });
});

// Against the published schema: every field is a key there, and allows nothing that it forbids.
describe.each(Object.keys(propertyFields) as ThingKind[])('the fields of %s', (kind) => {
  type Property = { minimum?: number; maximum?: number; exclusiveMinimum?: number; type?: string };
  const properties = (schema.$defs as Record<string, { properties?: Record<string, Property> }>)[kind]!.properties!;

  it('are keys of the schema with its limits', () => {
    for (const one of propertyFields[kind]) {
      const property = properties[one.key];
      expect(property, one.key).toBeDefined();
      if (one.kind !== 'number' || one.at !== undefined) continue;
      const perSi = one.perSi ?? 1;
      expect(one.min * perSi, one.key).toBeGreaterThanOrEqual(property!.minimum ?? property!.exclusiveMinimum ?? -Infinity);
      if (property!.exclusiveMinimum !== undefined) expect(one.min * perSi, one.key).toBeGreaterThan(property!.exclusiveMinimum);
      expect(one.max * perSi, one.key).toBeLessThanOrEqual(property!.maximum ?? Infinity);
      expect(one.whole ?? false, one.key).toBe(property!.type === 'integer');
    }
  });
});
