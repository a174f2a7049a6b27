// SPDX-License-Identifier: Apache-2.0
// The fields of catalogue items as people see them: label, quantity, range. Ranges as in docs/job-format.md.
import { beamShapes } from '../job/beam-shape';
import type { Section } from '../job/catalogue';
import { controlKinds, lampKinds, luminaireKinds, sundryKinds } from '../job/document';
import type { Quantity } from '../units/quantity';

export type ItemField =
  | { readonly kind: 'text'; readonly key: string; readonly label: string }
  | { readonly kind: 'choice'; readonly key: string; readonly label: string; readonly options: readonly string[] }
  | { readonly kind: 'flag'; readonly key: string; readonly label: string }
  | { readonly kind: 'money'; readonly key: string; readonly label: string }
  | { readonly kind: 'number'; readonly key: string; readonly label: string; readonly quantity: Quantity; readonly min: number; readonly max: number; readonly optional: boolean }
  | { readonly kind: 'list'; readonly key: string; readonly label: string; readonly quantity: Quantity };

const number = (key: string, label: string, quantity: Quantity, min: number, max: number, optional = false): ItemField => ({
  kind: 'number', key, label, quantity, min, max, optional,
});
const money = (key: string, label = 'Price to the client'): ItemField => ({ kind: 'money', key, label });
const flag = (key: string, label: string): ItemField => ({ kind: 'flag', key, label });
const choice = (key: string, label: string, options: readonly string[]): ItemField => ({ kind: 'choice', key, label, options });
const title: ItemField = { kind: 'text', key: 'title', label: 'Name' };
const note: ItemField = { kind: 'text', key: 'note', label: 'Note, source' };
const labour = number('labour_min', 'Time to fit one', 'duration_min', 0, 10_000, true);

export const itemFields: Record<Section, readonly ItemField[]> = {
  luminaires: [
    title, choice('kind', 'Kind', luminaireKinds), choice('lamp', 'Current follows volts as', lampKinds),
    number('power_w', 'Power', 'power', 0, 2000), number('power_va', 'Apparent power', 'apparent_power', 0, 2000),
    number('window_min_v', 'Window from', 'voltage', 0, 60), number('window_max_v', 'Window to', 'voltage', 0.001, 60),
    number('rated_v', 'Rated volts', 'voltage', 0.001, 60, true), number('v_regulation_min', 'Full light from', 'voltage', 0, 60, true),
    number('v_cut_off', 'Dark below', 'voltage', 0, 60, true), number('flux_lm', 'Light', 'flux', 0, 100_000, true),
    number('beam_deg', 'Beam, full angle', 'angle', 0, 360, true), choice('beam_shape', 'Shape of the beam', beamShapes), number('colour_temperature_k', 'Colour', 'colour_temperature', 1000, 20_000, true),
    number('mounting_height_m', 'Height of the light', 'short_length', -10, 60, true), number('lead_length_m', 'Own lead', 'length', 0, 100, true),
    number('lead_area_mm2', 'Lead conductor', 'area_mm2', 0, 100, true), flag('underwater_listed', 'Listed for use under water'), money('price_minor'), labour, note,
  ],
  transformers: [
    title, number('rating_va', 'Rating', 'apparent_power', 0.001, 20_000), number('output_count', 'Outputs', 'count', 1, 16, true),
    number('output_limit_a', 'Each output protected at', 'current', 0.001, 500, true), { kind: 'list', key: 'taps_v', label: 'Taps, no load', quantity: 'voltage' },
    number('r_own_ohm', 'Resistance of one output', 'resistance', 0, 10, true), number('r_shared_ohm', 'Resistance in common', 'resistance', 0, 10, true),
    number('core_loss_w', 'Loss without load', 'power', 0, 1000, true), flag('outdoor_listed', 'Listed for outdoors'), flag('pool_listed', 'Listed for pools'),
    money('price_minor'), labour, note,
  ],
  cables: [
    title, number('area_mm2', 'Conductor', 'area_mm2', 0.001, 100), number('gauge_awg', 'Gauge, AWG', 'count', -3, 40, true),
    number('ohm_per_m_20c', 'One conductor per metre at 20 °C', 'resistance', 0.000001, 10), number('ampacity_a', 'Current limit', 'current', 0, 1000, true),
    flag('direct_burial', 'May lie in the ground without a sleeve'), number('sold_step_m', 'Sold in steps of', 'length', 0.001, 10_000, true),
    money('price_minor_per_m', 'Price per metre'), number('labour_min_per_m', 'Time to lay a metre', 'duration_min', 0, 10_000, true), note,
  ],
  connectors: [
    title, flag('sealed', 'Listed for direct burial or wet places'), flag('mechanically_held', 'Holds the wires by itself'),
    flag('serves_both_conductors', 'One piece serves both conductors'), number('contact_ohm', 'Resistance per wire', 'resistance', 0, 10, true), money('price_minor'), labour, note,
  ],
  controls: [title, choice('kind', 'Kind', controlKinds), money('price_minor'), labour, note],
  sundries: [title, choice('kind', 'Kind', sundryKinds), choice('unit', 'Counted by', ['piece', 'm']), money('price_minor'), labour, note],
};

export const sectionNames: Record<Section, string> = {
  luminaires: 'Lights', transformers: 'Transformers', cables: 'Cables', connectors: 'Connectors', controls: 'Controls', sundries: 'Sundries',
};

export const inWords = (name: string): string => name.replaceAll('_', ' ').replace(/^led$|\bled\b/g, 'LED');
