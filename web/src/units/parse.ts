// SPDX-License-Identifier: Apache-2.0
// Reads what people type for a quantity: "3.5", "3,5", "12 ft 6 in", "12' 6\"", "350 mm", "14 in". A unit that is named
// wins over the job's own.
import { lxPerFc, mPerFt, mPerIn, celsiusFromFahrenheit } from './factors';
import { displayUnit, type Quantity, type UnitSystem } from './quantity';

const lengthUnits: Record<string, number> = {
  m: 1, mm: 0.001, cm: 0.01, ft: mPerFt, foot: mPerFt, feet: mPerFt, "'": mPerFt, '′': mPerFt,
  in: mPerIn, inch: mPerIn, inches: mPerIn, '"': mPerIn, '″': mPerIn, yd: 3 * mPerFt,
};
const isLength = (quantity: Quantity): boolean => quantity.endsWith('length');

/** The SI value, or undefined where the text is no such quantity. */
export function parseQuantity(text: string, quantity: Quantity, system: UnitSystem): number | undefined {
  const parts = [...text.trim().matchAll(/([+-]?\d+(?:[.,]\d+)?|[.,]\d+)\s*([^\d\s.,+-]*)\s*/g)];
  const whole = parts.map((part) => part[0]).join('');
  if (parts.length === 0 || whole.length !== text.trim().length) return undefined;
  if (parts.length === 1) return one(toNumber(parts[0]![1]!), parts[0]![2]!, quantity, system);
  return feetAndInches(parts, quantity);
}

const toNumber = (digits: string): number => Number(digits.replace(',', '.'));

function one(value: number, unit: string, quantity: Quantity, system: UnitSystem): number | undefined {
  if (!Number.isFinite(value)) return undefined;
  if (unit === '') return displayUnit(quantity, system).toSi(value);
  const key = unit.toLowerCase();
  if (isLength(quantity)) {
    const factor = lengthUnits[key];
    return factor === undefined ? undefined : value * factor;
  }
  if (quantity === 'temperature') {
    if (/^°?c$/.test(key)) return value;
    return /^°?f$/.test(key) ? celsiusFromFahrenheit(value) : undefined;
  }
  if (quantity === 'illuminance' && key === 'fc') return value * lxPerFc;
  if (quantity === 'illuminance' && key === 'lx') return value;
  const own = displayUnit(quantity, system);
  return key === own.symbol.toLowerCase() || key === own.spoken ? value : undefined;
}

function feetAndInches(parts: readonly RegExpMatchArray[], quantity: Quantity): number | undefined {
  if (!isLength(quantity) || parts.length !== 2) return undefined;
  const [feet, inches] = parts;
  const feetFactor = lengthUnits[feet![2]!.toLowerCase()];
  // "12' 6": inches go without saying after feet.
  const inchFactor = inches![2] === '' ? mPerIn : lengthUnits[inches![2]!.toLowerCase()];
  if (feetFactor !== mPerFt || inchFactor !== mPerIn) return undefined;
  const whole = toNumber(feet![1]!);
  const rest = toNumber(inches![1]!);
  return whole < 0 ? whole * mPerFt - rest * mPerIn : whole * mPerFt + rest * mPerIn;
}
