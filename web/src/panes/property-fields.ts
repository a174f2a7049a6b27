// SPDX-License-Identifier: Apache-2.0
// Which properties of a thing can be changed, by kind: label, quantity, range. Ranges as in docs/job-format.md.
import type { Section } from '../job/catalogue';
import { groundKinds, jointKinds, viewPointKinds, type JobDocument } from '../job/document';
import { luminaireItem, transformerItem, type Thing, type ThingKind } from '../job/lookup';
import { inWords } from '../ui/item-fields';
import { quantityText, type Quantity } from '../units/quantity';

export interface Choice {
  readonly value: string | number;
  readonly label: string;
}

interface Common {
  readonly key: string;
  readonly label: string;
}

export interface NumberProperty extends Common {
  readonly kind: 'number';
  /** The member of a list under that key: x, y or z of a position. */
  readonly at?: number;
  readonly quantity: Quantity;
  readonly min: number;
  readonly max: number;
  readonly optional: boolean;
  readonly whole?: boolean;
  /** Of the document's unit in one SI unit, where the key is not SI (`_mm`). */
  readonly perSi?: number;
  readonly help?: string;
  /** What counts where the document says nothing. */
  readonly inherited?: (job: JobDocument, thing: Thing) => number | undefined;
}

export type PropertyField =
  | (Common & { readonly kind: 'text' })
  | NumberProperty
  | (Common & { readonly kind: 'choice'; readonly options: (job: JobDocument, thing: Thing) => readonly Choice[]; readonly none?: string })
  /** Yes, no or not said. */
  | (Common & { readonly kind: 'flag' })
  | (Common & { readonly kind: 'item'; readonly section: Section; readonly optional: boolean });

type Extra = Partial<Omit<NumberProperty, 'kind' | 'key' | 'label' | 'quantity' | 'min' | 'max'>>;

const number = (key: string, label: string, quantity: Quantity, min: number, max: number, extra: Extra = {}): NumberProperty => ({
  kind: 'number', key, label, quantity, min, max, optional: true, ...extra,
});
const name: PropertyField = { kind: 'text', key: 'name', label: 'Name' };
const flag = (key: string, label: string): PropertyField => ({ kind: 'flag', key, label });
const kinds = (list: readonly string[], none?: string): PropertyField => ({
  kind: 'choice', key: 'kind', label: 'Kind', options: () => list.map((value) => ({ value, label: inWords(value) })), ...(none && { none }),
});
const item = (section: Section, label: string, key = 'item', optional = false): PropertyField => ({ kind: 'item', key, label, section, optional });
const axis = (at: number, label: string): NumberProperty => number('position', label, at === 2 ? 'short_length' : 'length', at === 2 ? -100 : -1e6, at === 2 ? 500 : 1e6, { at, optional: false });
const place = [axis(0, 'Across (x)'), axis(1, 'Up the plan (y)')];

const named = (list: readonly { readonly id: string; readonly name?: string }[] | undefined): Choice[] =>
  (list ?? []).map(({ id, name: called }) => ({ value: id, label: called ? `${called} (${id})` : id }));

const tapsOf = (job: JobDocument, thing: Thing): Choice[] => {
  const taps = thing.kind === 'output' ? (transformerItem(job, thing.transformer.item)?.taps_v ?? []) : [];
  return taps.map((value) => ({ value, label: quantityText(value, 'voltage', 'metric', 0) }));
};

// Whatever a cable may end at but its own other end: to itself it would be a short.
const endChoices = (key: 'from' | 'to') => (job: JobDocument, thing: Thing): Choice[] => {
  const outputs = (job.transformers ?? []).flatMap((unit) => unit.outputs.map(({ id }) => ({ value: id, label: unit.name ? `${id} of ${unit.name}` : id })));
  const other = thing.kind === 'cable' ? thing.value[key === 'from' ? 'to' : 'from'] : undefined;
  return [...outputs, ...named(job.joints), ...named(job.luminaires)].filter(({ value }) => value !== other);
};

export const propertyFields: Record<ThingKind, readonly PropertyField[]> = {
  luminaire: [
    name, item('luminaires', 'Light'), { kind: 'text', key: 'zone', label: 'Zone' },
    number('azimuth_deg', 'Aim, from north by east', 'angle', -360, 360), number('tilt_deg', 'Aim, up from level', 'angle', -90, 90),
    number('shield_cut_off_deg', 'Shield hides it beyond, from its aim', 'angle', 0, 180),
    number('dim_pct', 'Dimmed to', 'percent', 0, 100, { inherited: () => 100 }), axis(2, 'Height of the light'), ...place,
    { kind: 'choice', key: 'joint', label: 'Wired at', none: 'No joint', options: (job) => named(job.joints) },
    number('lead_length_m', 'Own lead', 'length', 0, 100, { inherited: (job, thing) => (thing.kind === 'luminaire' ? luminaireItem(job, thing.value.item)?.lead_length_m : undefined) }),
    number('slack_m', 'Slack at the light', 'short_length', 0, 100, { inherited: (job) => job.practice?.slack_at_luminaire_m }),
  ],
  transformer: [
    name, item('transformers', 'Transformer'), number('mounting_height_m', 'Height of its lower edge', 'short_length', -5, 30),
    { kind: 'choice', key: 'mounting', label: 'Mounted', none: 'Not said', options: () => [{ value: 'wall', label: 'on a wall' }, { value: 'post', label: 'on a post' }, { value: 'indoors', label: 'indoors' }] },
    { kind: 'choice', key: 'receptacle', label: 'Plugged in at', none: 'Not said', options: (job) => named(job.plan?.receptacles) },
    flag('extension_cord', 'By an extension cord'), ...place,
  ],
  output: [
    { kind: 'choice', key: 'tap_v', label: 'Tap', options: tapsOf },
    number('limit_a', 'Protected at', 'current', 0.001, 500, { inherited: (job, thing) => (thing.kind === 'output' ? transformerItem(job, thing.transformer.item)?.output_limit_a : undefined) }),
  ],
  cable: [
    item('cables', 'Cable'),
    { kind: 'choice', key: 'from', label: 'From', options: endChoices('from') }, { kind: 'choice', key: 'to', label: 'To', options: endChoices('to') },
    number('length_m', 'Measured length', 'length', 0, 10_000, { help: 'Empty: as long as its route is drawn' }),
    number('slack_from_m', 'Slack at its start', 'short_length', 0, 100), number('slack_to_m', 'Slack at its end', 'short_length', 0, 100),
    number('depth_m', 'Cover', 'short_length', 0, 10),
    { kind: 'choice', key: 'ground', label: 'Lies in', none: 'As drawn on the plan', options: () => groundKinds.map((value) => ({ value, label: inWords(value) })) },
    { kind: 'choice', key: 'sleeve', label: 'In the sleeve', none: 'None', options: (job) => named(job.plan?.sleeves) },
    flag('crossed', 'Conductors crossed'),
  ],
  joint: [
    name, kinds(jointKinds, 'As wired'), item('connectors', 'Connector', 'connector', true),
    number('connector_count', 'Pieces', 'count', 0, 100, { whole: true, help: 'Empty: as many as are needed' }), flag('buried', 'In the ground'), ...place,
  ],
  area: [name, kinds(groundKinds), number('height_m', 'Height', 'length', 0, 200)],
  tree: [
    name, number('height_m', 'Height', 'length', 0, 150), number('crown_width_m', 'Width of the crown', 'length', 0, 100),
    number('crown_base_m', 'Crown begins at', 'length', 0, 150), ...place,
  ],
  view_point: [name, kinds(viewPointKinds, 'Not said'), axis(2, 'Height of the eye'), ...place],
  receptacle: [flag('gfci', 'Protected against residual current'), flag('in_use_cover', 'Cover that closes over a plug'), number('circuit_a', 'Circuit', 'current', 0.001, 200), ...place],
  sleeve: [number('diameter_mm', 'Inner diameter', 'small_length', 0, 1, { perSi: 1000 }), number('depth_m', 'Depth', 'short_length', 0, 10)],
  fixed_point: [name, ...place],
};

export const kindNames: Record<ThingKind, readonly [string, string]> = {
  luminaire: ['light', 'lights'], transformer: ['transformer', 'transformers'], output: ['output', 'outputs'], cable: ['cable', 'cables'],
  joint: ['joint', 'joints'], area: ['area', 'areas'], tree: ['tree', 'trees'], view_point: ['view point', 'view points'],
  receptacle: ['receptacle', 'receptacles'], sleeve: ['sleeve', 'sleeves'], fixed_point: ['fixed point', 'fixed points'],
};

/** The item that a thing names, as the job has it. */
export function itemIdOf(thing: Thing): string | undefined {
  if (thing.kind === 'joint') return thing.value.connector;
  return thing.kind === 'luminaire' || thing.kind === 'transformer' || thing.kind === 'cable' ? thing.value.item : undefined;
}

