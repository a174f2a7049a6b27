// SPDX-License-Identifier: Apache-2.0
// The types of the document against the published schema, key by key.
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readInterfaces } from '../support/interfaces';

interface Shape {
  readonly properties: Readonly<Record<string, { readonly enum?: readonly string[] }>>;
  readonly required?: readonly string[];
}

const schema = JSON.parse(readFileSync('../docs/schema/job-v1.schema.json', 'utf8')) as Shape & { readonly $defs: Readonly<Record<string, Shape>> };
const files = ['document', 'view', 'offer', 'programme', 'visit'].map((name) => readInterfaces(`src/job/${name}.ts`));
const interfaces = new Map(files.flatMap((file) => [...file.interfaces]));
const lists = new Map(files.flatMap((file) => [...file.lists]));

const typed: readonly (readonly [string, Shape | undefined])[] = [
  ['JobDocument', schema],
  ...[
    'Site', 'Corners', 'Client', 'Wish', 'Practice', 'Catalogue', 'LuminaireItem', 'TransformerItem', 'CableItem', 'ConnectorItem',
    'ConnectorFill', 'ControlItem', 'SundryItem', 'Plan', 'Underlay', 'Area', 'Sleeve', 'Receptacle', 'ViewPoint', 'Tree',
    'FixedPoint', 'Luminaire', 'Transformer', 'Output', 'Cable', 'Joint', 'AsBuilt',
    'View', 'Calibration', 'KnownWall', 'ViewReference', 'PictureSurface', 'PictureTree', 'PictureMask', 'PictureMeasure',
    'NightLook', 'Offer', 'Rates', 'GroundRate', 'Margins', 'Terms', 'Warranty', 'OfferOption', 'ItemSwap', 'OfferExtra',
    'ProgrammeEntry', 'SwitchRule', 'Visit', 'Answers', 'Reading',
  ].map((name) => [name, schema.$defs[name.replace(/(?<!^)[A-Z]/g, '_$&').toLowerCase()]] as const),
];

// Keys that documents carry beyond the schema (unknown keys are kept).
const beyond: Readonly<Record<string, readonly string[]>> = { JobDocument: ['stage'] };

describe('the types of the document', () => {
  it.each(typed)('%s has the keys of the schema, and the same ones required', (name, shape) => {
    const properties = interfaces.get(name)!;
    const own = [...properties.keys()].filter((key) => key !== 'note' && !beyond[name]?.includes(key));
    expect(own.sort()).toEqual(Object.keys(shape!.properties).filter((key) => key !== 'note').sort());
    const required = [...properties].filter(([, { optional }]) => !optional).map(([key]) => key);
    expect(required.sort()).toEqual([...(shape!.required ?? [])].sort());
  });

  it.each([
    ['lampKinds', 'luminaire_item', 'lamp'],
    ['luminaireKinds', 'luminaire_item', 'kind'],
    ['controlKinds', 'control_item', 'kind'],
    ['sundryKinds', 'sundry_item', 'kind'],
    ['groundKinds', 'area', 'kind'],
    ['viewPointKinds', 'view_point', 'kind'],
    ['jointKinds', 'joint', 'kind'],
    ['calibrationMethods', 'calibration', 'method'],
    ['surfaceKinds', 'picture_surface', 'kind'],
    ['maskKinds', 'picture_mask', 'kind'],
    ['soils', 'site', 'soil'],
    ['taxBases', 'margins', 'tax_on'],
    ['optionKinds', 'offer_option', 'kind'],
    ['switchBases', 'switch_rule', 'at'],
    ['visitKinds', 'visit', 'kind'],
    ['readingQuantities', 'reading', 'quantity'],
    ['readingUnits', 'reading', 'unit'],
    ['seenStates', 'reading', 'seen'],
  ])('%s are those of the schema', (list, part, key) => {
    expect(lists.get(list)).toEqual(schema.$defs[part]!.properties[key]!.enum);
  });
});
