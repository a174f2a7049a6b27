// SPDX-License-Identifier: Apache-2.0
// Editing the switching programme: entries, their moments by the clock or the sun, weekdays, season, what they switch.
import type { JobDocument } from '../document';
import { nextName, randomId } from '../ids';
import type { Command } from '../operations';
import { weekdays, type ProgrammeEntry, type SwitchBase, type SwitchRule, type Weekday } from '../programme';

export const entryName = ({ id, name }: ProgrammeEntry): string => name || id;

/** From a quarter of an hour after sunset to 23:00, as most gardens begin (common practice, no source). */
export function addEntry(job: JobDocument): { readonly command: Command; readonly id: string } {
  const id = randomId('entry');
  const name = (job.programme ?? []).length === 0 ? 'Every evening' : nextName('Entry', job.programme!.map((entry) => entry.name));
  const value: ProgrammeEntry = { id, name, on: { at: 'sunset', offset_min: 15 }, off: { at: 'clock', time: '23:00' } };
  return { command: { label: `Add ${name}`, changes: [{ op: 'insert', path: ['programme'], value }] }, id };
}

export const removeEntry = (entry: ProgrammeEntry): Command => ({ label: `Remove ${entryName(entry)}`, changes: [{ op: 'remove', path: ['programme', { id: entry.id }] }] });

/** Sets one key; undefined, an empty text or an empty list takes it away. */
export function setInEntry(entry: ProgrammeEntry, label: string, key: keyof ProgrammeEntry, value: unknown): Command {
  const empty = value === '' || (Array.isArray(value) && value.length === 0);
  return { label: `${label} of ${entryName(entry)}`, changes: [{ op: 'set', path: ['programme', { id: entry.id }, key], value: empty ? undefined : value }] };
}

/** The other base keeps what it can: a moment by the clock needs a time, one by the sun an offset. */
export function setBase(entry: ProgrammeEntry, which: 'on' | 'off', at: SwitchBase): Command {
  const { time, offset_min, ...rest } = entry[which];
  const rule: SwitchRule = at === 'clock' ? { ...rest, at, time: time ?? (which === 'on' ? '19:00' : '23:00') } : { ...rest, at, offset_min: offset_min ?? 0 };
  return setInEntry(entry, which === 'on' ? 'On' : 'Off', which, rule);
}

export const setMoment = (entry: ProgrammeEntry, which: 'on' | 'off', part: Pick<SwitchRule, 'time' | 'offset_min'>): Command =>
  setInEntry(entry, which === 'on' ? 'On' : 'Off', which, { ...entry[which], ...part });

/** No day named is every day; so are all seven. */
export function toggleDay(entry: ProgrammeEntry, day: Weekday): Command {
  const now: readonly Weekday[] = entry.days && entry.days.length > 0 ? entry.days : weekdays;
  const days = weekdays.filter((one) => (one === day ? !now.includes(one) : now.includes(one)));
  return setInEntry(entry, 'Days', 'days', days.length === 7 ? [] : days);
}

/** A season of both its ends, or the whole year. */
export function setSeason(entry: ProgrammeEntry, season: { readonly from: string; readonly to: string } | undefined): Command {
  const path = ['programme', { id: entry.id }] as const;
  return {
    label: `Season of ${entryName(entry)}`,
    changes: [{ op: 'set', path: [...path, 'from_day'], value: season?.from }, { op: 'set', path: [...path, 'to_day'], value: season?.to }],
  };
}

/** Of zones or transformers; none named is all of them. */
export function toggleMember(entry: ProgrammeEntry, key: 'zones' | 'transformers', name: string, wanted: boolean): Command {
  const now = entry[key] ?? [];
  return setInEntry(entry, key === 'zones' ? 'Zones' : 'Transformers', key, wanted ? [...now, name] : now.filter((one) => one !== name));
}
