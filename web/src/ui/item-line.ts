// SPDX-License-Identifier: Apache-2.0
// A catalogue item in a few figures, for lists to choose from.
import type { Item, Section } from '../job/catalogue';
import type { CableItem, ConnectorItem, LuminaireItem, TransformerItem } from '../job/document';
import { moneyText } from '../units/money';
import { quantityText } from '../units/quantity';
import { inWords } from './item-fields';

export function itemLine(section: Section, item: Item, currency: string): string {
  const parts = figures(section, item);
  const price = 'price_minor_per_m' in item ? item.price_minor_per_m : 'price_minor' in item ? item.price_minor : undefined;
  if (price !== undefined) parts.push(`${moneyText(price, currency)}${section === 'cables' ? ' per m' : ''}`);
  return parts.join(' · ');
}

function figures(section: Section, item: Item): string[] {
  if (section === 'luminaires') return luminaire(item as LuminaireItem);
  if (section === 'transformers') return transformer(item as TransformerItem);
  if (section === 'cables') return cable(item as CableItem);
  if (section === 'connectors') return connector(item as ConnectorItem);
  return 'kind' in item ? [inWords(item.kind)] : [];
}

function luminaire(item: LuminaireItem): string[] {
  const text = (si: number, quantity: 'power' | 'apparent_power' | 'flux' | 'angle' | 'colour_temperature'): string =>
    quantityText(si, quantity, 'metric', quantity === 'power' || quantity === 'apparent_power' ? 1 : 0);
  return [
    `${text(item.power_w, 'power')}, ${text(item.power_va, 'apparent_power')}`,
    `${item.window_min_v} to ${item.window_max_v}\u00a0V`,
    ...(item.flux_lm ? [text(item.flux_lm, 'flux')] : []),
    ...(item.beam_deg ? [item.beam_deg >= 360 ? 'all round' : text(item.beam_deg, 'angle')] : []),
    ...(item.colour_temperature_k ? [text(item.colour_temperature_k, 'colour_temperature')] : []),
  ];
}

function transformer(item: TransformerItem): string[] {
  const outputs = item.output_count ?? 1;
  return [
    quantityText(item.rating_va, 'apparent_power', 'metric', 0),
    `${outputs} ${outputs === 1 ? 'output' : 'outputs'}${item.output_limit_a === undefined ? '' : ` of ${item.output_limit_a}\u00a0A`}`,
    `taps ${item.taps_v.join(' ')}\u00a0V`,
  ];
}

function cable(item: CableItem): string[] {
  return [
    quantityText(item.area_mm2, 'area_mm2', 'metric'),
    `${(item.ohm_per_m_20c * 1000).toFixed(2)}\u00a0mΩ/m each`,
    item.direct_burial === false ? 'not for direct burial' : 'direct burial',
  ];
}

function connector(item: ConnectorItem): string[] {
  const most = Math.max(0, ...(item.fills ?? []).map(({ count_max }) => count_max ?? 2));
  return [
    ...(most > 0 ? [`up to ${most} wires`] : []),
    item.sealed ? 'sealed' : 'not sealed',
    item.mechanically_held ? 'holds the wires' : 'does not hold the wires by itself',
  ];
}
