// SPDX-License-Identifier: Apache-2.0
// The kinds of reading that a visit takes, in the order of a service call, and where each of them can be taken.
import type { NextToRead } from '../engine/locate';
import type { JobDocument } from '../job/document';
import type { Reading, ReadingQuantity, Seen } from '../job/visit';

export type ReadingKind =
  | 'output_v' | 'output_a' | 'lamp_v' | 'lamp_seen' | 'cable_a' | 'joint_v' | 'end_v' | 'open_v' | 'ohm' | 'mains_v' | 'mains_a' | 'breaker';

export interface KindOfReading {
  readonly id: ReadingKind;
  readonly title: string;
  readonly hint: string;
  readonly quantity: ReadingQuantity;
  readonly unit: 'V' | 'A' | 'ohm' | undefined;
  readonly at: readonly PlaceKind[];
  readonly seen?: readonly Seen[];
}

export type PlaceKind = 'output' | 'luminaire' | 'joint' | 'cable' | 'transformer';

export const kindsOfReading: readonly KindOfReading[] = [
  { id: 'output_v', title: 'Output volts', hint: 'At the lugs, lamps on', quantity: 'voltage', unit: 'V', at: ['output'] },
  { id: 'output_a', title: 'Output amps', hint: 'Clamp on one lug wire', quantity: 'current', unit: 'A', at: ['output'] },
  { id: 'lamp_v', title: 'Lamp volts', hint: 'At its base, lamps on', quantity: 'voltage', unit: 'V', at: ['luminaire'] },
  { id: 'lamp_seen', title: 'Lamp seen', hint: 'Lit, dim, dark, flickering', quantity: 'lamp_state', unit: undefined, at: ['luminaire'], seen: ['lit', 'dim', 'dark', 'flickering'] },
  { id: 'cable_a', title: 'Cable amps', hint: 'One conductor, or the whole cable', quantity: 'current', unit: 'A', at: ['cable'] },
  { id: 'joint_v', title: 'Joint volts', hint: 'At the opened joint, lamps on', quantity: 'voltage', unit: 'V', at: ['joint'] },
  { id: 'end_v', title: 'Cable end volts', hint: 'Its own ends, beside a joint', quantity: 'voltage', unit: 'V', at: ['cable'] },
  { id: 'open_v', title: 'Open circuit', hint: 'At an output, runs lifted', quantity: 'voltage', unit: 'V', at: ['output'] },
  { id: 'ohm', title: 'Ohms', hint: 'Between conductors, all off', quantity: 'resistance', unit: 'ohm', at: ['output', 'joint', 'luminaire'] },
  { id: 'mains_v', title: 'Mains volts', hint: 'At the outlet', quantity: 'mains_voltage', unit: 'V', at: ['transformer'] },
  { id: 'mains_a', title: 'Mains amps', hint: 'What a transformer draws', quantity: 'mains_current', unit: 'A', at: ['transformer'] },
  { id: 'breaker', title: 'Breaker', hint: 'Tripped or holding', quantity: 'breaker', unit: undefined, at: ['output'], seen: ['tripped', 'holding'] },
];

export const kindOf = (id: ReadingKind): KindOfReading => kindsOfReading.find((kind) => kind.id === id)!;

export const seenWords: Readonly<Record<Seen, string>> = {
  measured: 'Measured', lit: 'Lit', dim: 'Dim', dark: 'Dark', flickering: 'Flickering', tripped: 'Tripped', holding: 'Holding',
};

export const clampedWords = { one: 'One conductor', other: 'The other', net: 'Whole cable' } as const;
export type Clamped = keyof typeof clampedWords;

export interface Place {
  readonly id: string;
  readonly kind: PlaceKind;
  readonly name: string;
  /** What tells it from others of a like name. */
  readonly more: string;
}

/** Where a reading of that kind can be taken, in the job's order. */
export function placesFor(job: JobDocument, kind: KindOfReading): readonly Place[] {
  const wanted = new Set<PlaceKind>(kind.at);
  const places: Place[] = [];
  const add = (of: PlaceKind, id: string, name: string | undefined, more: string): void => {
    if (wanted.has(of)) places.push({ id, kind: of, name: name || id, more: [name && name !== id ? id : '', more].filter(Boolean).join(', ') });
  };
  for (const { id, name, outputs } of job.transformers ?? []) {
    add('transformer', id, name, 'transformer');
    for (const output of outputs) add('output', output.id, undefined, `${outputs.length > 1 ? `${name || id}, ` : ''}tap ${output.tap_v} V`);
  }
  for (const { id, name, zone } of job.luminaires ?? []) add('luminaire', id, name, zone ?? '');
  for (const { id, name } of job.joints ?? []) add('joint', id, name, 'joint');
  for (const { id, from, to } of job.cables ?? []) add('cable', id, undefined, `${from} to ${to}`);
  return places;
}

export function placeName(job: JobDocument, id: string): string {
  for (const list of [job.luminaires, job.joints, job.transformers] as const) {
    const name = list?.find((one) => one.id === id)?.name;
    if (name && name !== id) return `${name} (${id})`;
  }
  return id;
}

/** The ends of a cable beside which its own conductors can be read. */
export const endsOfCable = (job: JobDocument, id: string): readonly string[] => {
  const cable = job.cables?.find((one) => one.id === id);
  return cable ? [cable.from, cable.to] : [];
};

export interface Wanted {
  readonly kind: ReadingKind;
  readonly place: string;
  readonly clamped: Clamped;
  readonly at: string;
  readonly lifted: string;
}

/** The reading that was asked for, with its number or what was seen. */
export function readingOf({ kind: id, place, clamped, at, lifted }: Wanted, got: number | Seen, time: string): Reading {
  const kind = kindOf(id);
  return {
    place,
    quantity: kind.quantity,
    ...(typeof got === 'number' ? { value: got, ...(kind.unit && { unit: kind.unit }) } : { seen: got }),
    ...(id === 'open_v' && { load: 'open_circuit' as const }),
    ...(id === 'cable_a' && clamped !== 'one' && { clamped }),
    ...(id === 'end_v' && at !== '' && { at }),
    ...(lifted !== '' && { lifted }),
    time,
  };
}

/** How a reading that the engine asks for is entered. */
export function askedFor(job: JobDocument, next: NextToRead): Wanted {
  const { place, clamped, at, lifted } = next;
  return { kind: kindAskedFor(job, next), place, clamped, at, lifted };
}

function kindAskedFor(job: JobDocument, { place, reads, load }: NextToRead): ReadingKind {
  const isCable = job.cables?.some(({ id }) => id === place) ?? false;
  const isOutput = job.transformers?.some(({ outputs }) => outputs.some(({ id }) => id === place)) ?? false;
  switch (reads) {
    case 'resistance': return 'ohm';
    case 'breaker': return 'breaker';
    case 'mains_voltage': return 'mains_v';
    case 'mains_current': return 'mains_a';
    case 'current': return isCable ? 'cable_a' : 'output_a';
    case 'voltage':
      if (isOutput) return load === 'open_circuit' ? 'open_v' : 'output_v';
      if (isCable) return 'end_v';
      return job.joints?.some(({ id }) => id === place) ? 'joint_v' : 'lamp_v';
    default: return 'lamp_seen';
  }
}
