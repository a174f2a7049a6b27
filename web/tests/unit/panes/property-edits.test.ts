// SPDX-License-Identifier: Apache-2.0
// Edits of properties, one thing or many: only what was changed is touched, and SI numbers stay what they were.
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import schema from '../../../../docs/schema/job-v1.schema.json' with { type: 'json' };
import type { Item } from '../../../src/job/catalogue';
import { difference } from '../../../src/job/difference';
import type { JobDocument } from '../../../src/job/document';
import { findThing, type Thing, type ThingKind } from '../../../src/job/lookup';
import { applyOperations } from '../../../src/job/operations';
import { applies, choiceSettingOf, commonOf, documentOf, itemEditOf, itemSettingOf, settingOf, siOf } from '../../../src/panes/property-edits';
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

  it('of a cable that ends elsewhere is drawn to there, and measured lengths stay', () => {
    const cable = findThing(job, job.cables!.find(({ path }) => (path?.length ?? 0) > 1)!.id, 'cable')! as Thing & { kind: 'cable' };
    const joint = job.joints!.find(({ id, position }) => position && id !== cable.value.from && id !== cable.value.to)!;
    const { document } = applyOperations(job, choiceSettingOf(job, [cable], field('cable', 'to'), joint.id).changes);
    const after = findThing(document, cable.value.id, 'cable')!.value as typeof cable.value;
    expect(after.to).toBe(joint.id);
    expect(after.path!.at(-1)).toEqual(joint.position!.slice(0, 2));
    expect(after.path!.slice(0, -1)).toEqual(cable.value.path!.slice(0, -1));
    expect(difference(job, document).length).toBeLessThanOrEqual(2);
    const back = choiceSettingOf(document, [findThing(document, cable.value.id, 'cable')!], field('cable', 'to'), joint.id);
    expect(back.changes).toEqual([]);
  });

  it('offers a cable every end but its own other one', () => {
    const cable = findThing(job, job.cables![0]!.id, 'cable')! as Thing & { kind: 'cable' };
    const to = field('cable', 'to');
    if (to.kind !== 'choice') throw new Error('The end of a cable is a choice.');
    const values = to.options(job, cable).map(({ value }) => value);
    expect(values).toContain(cable.value.to);
    expect(values).not.toContain(cable.value.from);
    expect(new Set(values).size).toBe(values.length);
  });
});
