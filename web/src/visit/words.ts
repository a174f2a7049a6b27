// SPDX-License-Identifier: Apache-2.0
// Words and numbers of a visit: readings with sign and unit, moments as the device's clock shows them.
import type { JobDocument } from '../job/document';
import type { Reading, VisitKind } from '../job/visit';
import { clampedWords, placeName, seenWords } from './reading-kinds';

export const kindWords: Readonly<Record<VisitKind, string>> = {
  survey: 'Site walk', installation: 'Installation', commissioning: 'Commissioning', night_visit: 'Night visit', hand_over: 'Hand-over', care: 'Yearly care', service: 'Service call', other: 'Other',
};

const symbols: Readonly<Record<string, string>> = { ohm: 'Ω' };

export const withUnit = (value: number, unit: string): string => `${value.toFixed(unit === 'VA' || unit === 'W' || Math.abs(value) >= 100 ? 1 : 2)} ${symbols[unit] ?? unit}`;
export const withSign = (value: number, unit: string): string => `${value < 0 ? '−' : '+'}${withUnit(Math.abs(value), unit)}`;
/** A likelihood is never certainty: neither 0 nor 100. */
export const percent = (chance: number): string => (chance > 0.99 ? 'above 99 %' : chance > 0 && chance < 0.005 ? 'under 1 %' : `${Math.round(chance * 100)} %`);

export const clock = (iso: string): string => new Date(iso).toLocaleTimeString('en-GB', { hour: '2-digit', minute: '2-digit' });

/** Date and time of day on this device, as the job's document writes them. */
export function localMoment(now: Date): { readonly date: string; readonly time: string } {
  const two = (value: number): string => String(value).padStart(2, '0');
  return { date: `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`, time: `${two(now.getHours())}:${two(now.getMinutes())}` };
}

const quantityWords: Readonly<Record<string, string>> = {
  voltage: 'volts', current: 'amps', mains_voltage: 'mains volts', mains_current: 'mains amps', power: 'watts', apparent_power: 'volt-amperes', resistance: 'ohms', illuminance: 'lux', temperature: 'temperature', lamp_state: 'seen', breaker: 'breaker',
};

/** "F5 base: 0.00 V" in full, for lists and for a screen reader. */
export function readingWords(job: JobDocument, reading: Reading): string {
  const what = reading.seen && reading.seen !== 'measured' ? seenWords[reading.seen].toLowerCase() : reading.value === undefined ? '' : withUnit(reading.value, reading.unit ?? '');
  const how = [
    quantityWords[reading.quantity] ?? reading.quantity,
    reading.load === 'open_circuit' && 'runs lifted',
    reading.clamped && clampedWords[reading.clamped].toLowerCase(),
    reading.at && `beside ${placeName(job, reading.at)}`,
    reading.lifted && `${reading.lifted} lifted`,
  ].filter(Boolean).join(', ');
  return `${placeName(job, reading.place)}, ${how}: ${what}`;
}
