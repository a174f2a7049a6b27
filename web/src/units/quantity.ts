// SPDX-License-Identifier: Apache-2.0
// Quantities as people read and type them. The file holds SI and is never rounded: text is made from it and read into
// it, and reading back what was shown untouched gives the SI value itself (see NumberField).
import { celsiusFromFahrenheit, fahrenheitFromCelsius, lxPerFc, mPerFt, mPerIn } from './factors';

export type UnitSystem = 'metric' | 'us';

export type Quantity =
  | 'length' // along the ground, cables
  | 'short_length' // depth, height, slack
  | 'small_length' // diameters
  | 'area_mm2'
  | 'voltage'
  | 'current'
  | 'power'
  | 'apparent_power'
  | 'resistance'
  | 'temperature'
  | 'angle'
  | 'percent'
  | 'accuracy'
  | 'flux'
  | 'illuminance'
  | 'colour_temperature'
  | 'duration_min'
  | 'duration_h'
  | 'years'
  | 'days'
  | 'count';

export interface DisplayUnit {
  readonly symbol: string;
  /** For a screen reader. */
  readonly spoken: string;
  readonly decimals: number;
  readonly fromSi: (si: number) => number;
  readonly toSi: (shown: number) => number;
}

const scaled = (symbol: string, spoken: string, decimals: number, siPerUnit: number): DisplayUnit => ({
  symbol,
  spoken,
  decimals,
  fromSi: (si) => si / siPerUnit,
  toSi: (shown) => shown * siPerUnit,
});

const same = (symbol: string, spoken: string, decimals: number): DisplayUnit => scaled(symbol, spoken, decimals, 1);

const common: Record<Exclude<Quantity, 'length' | 'short_length' | 'small_length' | 'temperature' | 'illuminance'>, DisplayUnit> = {
  area_mm2: same('mm²', 'square millimetres', 2),
  voltage: same('V', 'volts', 2),
  current: same('A', 'amperes', 2),
  power: same('W', 'watts', 1),
  apparent_power: same('VA', 'volt-amperes', 1),
  resistance: same('Ω', 'ohms', 4),
  angle: same('°', 'degrees', 1),
  percent: same('%', 'percent', 0),
  accuracy: same('%', 'percent', 1),
  flux: same('lm', 'lumens', 0),
  colour_temperature: same('K', 'kelvin', 0),
  duration_min: same('min', 'minutes', 0),
  duration_h: same('h', 'hours', 1),
  years: same('years', 'years', 0),
  days: same('days', 'days', 0),
  count: same('', '', 0),
};

const metric: Record<Quantity, DisplayUnit> = {
  ...common,
  length: same('m', 'metres', 2),
  short_length: same('m', 'metres', 2),
  small_length: scaled('mm', 'millimetres', 1, 0.001),
  temperature: same('°C', 'degrees Celsius', 0),
  illuminance: same('lx', 'lux', 1),
};

const us: Record<Quantity, DisplayUnit> = {
  ...common,
  length: scaled('ft', 'feet', 1, mPerFt),
  short_length: scaled('in', 'inches', 1, mPerIn),
  small_length: scaled('in', 'inches', 2, mPerIn),
  temperature: {
    symbol: '°F',
    spoken: 'degrees Fahrenheit',
    decimals: 0,
    fromSi: fahrenheitFromCelsius,
    toSi: celsiusFromFahrenheit,
  },
  illuminance: scaled('fc', 'foot-candles', 2, lxPerFc),
};

export function displayUnit(quantity: Quantity, system: UnitSystem): DisplayUnit {
  return (system === 'us' ? us : metric)[quantity];
}

/** "12.40", rounded for the eye; never to be read back into a document. A dash for what could not be computed. */
export function numberText(si: number | null, quantity: Quantity, system: UnitSystem, decimals?: number): string {
  if (si === null || !Number.isFinite(si)) return '–';
  const unit = displayUnit(quantity, system);
  const text = unit.fromSi(si).toFixed(decimals ?? unit.decimals);
  return /^-0(\.0*)?$/.test(text) ? text.slice(1) : text;
}

/** "12.40 V" with a space that does not break; "36°" without one. */
export function quantityText(si: number | null, quantity: Quantity, system: UnitSystem, decimals?: number): string {
  const { symbol } = displayUnit(quantity, system);
  const gap = symbol === '' || symbol === '°' ? '' : '\u00a0';
  return `${numberText(si, quantity, system, decimals)}${gap}${symbol}`;
}

const editDecimals: Partial<Record<Quantity, number>> = { resistance: 8, angle: 6 };

/** What a field shows for editing; where that is not touched the field hands back nothing, so nothing is rounded. */
export function editText(si: number, quantity: Quantity, system: UnitSystem): string {
  return String(Number(displayUnit(quantity, system).fromSi(si).toFixed(editDecimals[quantity] ?? 4)));
}
