// SPDX-License-Identifier: Apache-2.0
// The log of a visit: entries are added and never changed or taken away. A wrong reading is struck by a later entry.
// What the engine reads of a visit (readings, meter, signature) follows from its log, so that logs written on two
// phones are joined by putting their entries together, whatever their order.
import type { JobDocument } from './document';
import { isLogged, type LoggedVisit, type Reading, type Visit } from './visit';

/** What a person says about the visit as a whole; a later entry goes before an earlier one, key by key. */
type Told = Pick<Visit, 'date' | 'kind' | 'by' | 'meter' | 'meter_accuracy_pct' | 'clamp_accuracy_pct' | 'weather' | 'complaint' | 'answers' | 'notes'> & Pick<LoggedVisit, 'walk'>;
/** null: said no longer. */
export type VisitFacts = { readonly [K in keyof Told]?: Told[K] | null };

export type LogBody =
  | { readonly kind: 'facts'; readonly facts: VisitFacts }
  | { readonly kind: 'reading'; readonly reading: Reading }
  | { readonly kind: 'strike'; readonly strikes: string; readonly why: string }
  /** Stands for as many entries as there were; with more of them it stands no longer. */
  | { readonly kind: 'sign'; readonly signed_by: string; readonly covers: number }
  /** The trench was closed although joints lack a record. */
  | { readonly kind: 'backfill'; readonly without: readonly string[]; readonly why: string };

export type LogEntry = LogBody & {
  readonly id: string;
  readonly visit: string;
  readonly device: string;
  /** Counts the entries of one device in one visit, from 1, without gaps. */
  readonly number: number;
  /** ISO 8601, UTC; never before an entry that the device had seen, whatever its clock says. */
  readonly at: string;
};

export type ReadingEntry = LogEntry & { readonly kind: 'reading' };

/** The order in which entries count, the same on every device. */
export function inOrder(log: readonly LogEntry[]): readonly LogEntry[] {
  return [...log].sort((a, b) => order(a.at, b.at) || order(a.device, b.device) || a.number - b.number || order(a.id, b.id));
}

const order = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** Each entry once. Of two under one id (damaged on the way) the same one wins on every device. */
export function joinedLog(...logs: readonly (readonly LogEntry[])[]): readonly LogEntry[] {
  const entries = new Map<string, LogEntry>();
  for (const entry of logs.flat()) {
    const known = entries.get(entry.id);
    if (!known || order(canonicalText(entry), canonicalText(known)) < 0) entries.set(entry.id, entry);
  }
  return inOrder([...entries.values()]);
}

/** A later moment than any of the log, at least `now`. */
export function nextMoment(log: readonly LogEntry[], now: Date): string {
  const last = log.reduce((latest, { at }) => Math.max(latest, Date.parse(at) || 0), 0);
  return new Date(Math.max(now.getTime(), last + 1)).toISOString();
}

export const nextNumber = (log: readonly LogEntry[], device: string): number =>
  1 + log.reduce((most, entry) => (entry.device === device ? Math.max(most, entry.number) : most), 0);

/** Why an entry was struck, by its id. */
export function struckIn(log: readonly LogEntry[]): ReadonlyMap<string, string> {
  const struck = new Map<string, string>();
  for (const entry of inOrder(log)) if (entry.kind === 'strike' && !struck.has(entry.strikes)) struck.set(entry.strikes, entry.why);
  return struck;
}

/** The readings that stand, in order. */
export function standingEntries(log: readonly LogEntry[]): readonly ReadingEntry[] {
  const struck = struckIn(log);
  return inOrder(log).filter((entry): entry is ReadingEntry => entry.kind === 'reading' && !struck.has(entry.id));
}

/** The last signature, and how many entries it does not stand for. */
export function signatureOf(log: readonly LogEntry[]): { readonly by: string; readonly at: string; readonly since: number } | undefined {
  const last = inOrder(log).filter((entry) => entry.kind === 'sign').at(-1);
  return last && { by: last.signed_by, at: last.at, since: log.length - 1 - last.covers };
}

/** The visit as its log tells it. What the log says nothing about stays. */
export function told(visit: LoggedVisit): LoggedVisit {
  const log = inOrder(visit.log);
  const result: Record<string, unknown> = { ...visit, log };
  for (const key of ['readings', 'signed_off', 'notes']) delete result[key];
  for (const entry of log) if (entry.kind === 'facts') Object.assign(result, entry.facts);
  // What was said no longer, or left empty, is absent.
  for (const [key, value] of Object.entries(result)) if (value === null || value === '') delete result[key];
  const notes = [saidOf(log, 'notes'), ...log.map((entry) => (entry.kind === 'backfill' ? `Closed without a record of ${entry.without.join(', ')}: ${entry.why}` : ''))];
  const readings = standingEntries(log).map(({ reading }) => reading);
  const signature = signatureOf(log);
  if (notes.some(Boolean)) result['notes'] = notes.filter(Boolean).join('\n');
  if (readings.length > 0) result['readings'] = readings;
  if (signature?.since === 0) result['signed_off'] = `${signature.by}, ${signature.at.slice(0, 16).replace('T', ' ')} UTC`;
  return result as unknown as LoggedVisit;
}

/** What was said last about one thing. */
export function saidOf<K extends keyof VisitFacts>(log: readonly LogEntry[], key: K): VisitFacts[K] | undefined {
  let said: VisitFacts[K] | undefined;
  for (const entry of inOrder(log)) if (entry.kind === 'facts' && key in entry.facts) said = entry.facts[key];
  return said;
}

/** The visit with more entries in its log; one that is not there yet begins with its facts. */
export function withEntries(visits: readonly Visit[], entries: readonly LogEntry[]): readonly Visit[] {
  const byVisit = new Map<string, LogEntry[]>();
  for (const entry of entries) byVisit.set(entry.visit, [...(byVisit.get(entry.visit) ?? []), entry]);
  const result = visits.map((visit) => {
    const more = visit.id === undefined ? undefined : byVisit.get(visit.id);
    if (!more || !isLogged(visit)) return visit;
    byVisit.delete(visit.id);
    return told({ ...visit, log: joinedLog(visit.log, more) });
  });
  const begun = [...byVisit].map(([id, log]) => told({ id, date: log[0]!.at.slice(0, 10), kind: 'other', log: joinedLog(log) }));
  return [...result, ...begun];
}

/** The visits of both documents: logs are joined; visits without one stay as either side has them. */
export function joinedVisits(mine: readonly Visit[], theirs: readonly Visit[]): readonly Visit[] {
  const known = new Set(theirs.filter((visit) => !isLogged(visit)).map(canonicalText));
  const alone = mine.filter((visit) => !isLogged(visit) && !known.has(canonicalText(visit)));
  const joined = new Map<string, LoggedVisit>();
  for (const visit of [...theirs, ...mine].filter(isLogged)) {
    const other = joined.get(visit.id);
    joined.set(visit.id, told(other ? { ...visit, ...other, log: joinedLog(other.log, visit.log) } : visit));
  }
  const all: Visit[] = [...theirs.filter((visit) => !isLogged(visit)), ...alone, ...joined.values()];
  return all.sort((a, b) => order(a.date, b.date) || order(a.id ?? '', b.id ?? ''));
}

export const visitsOf = (job: JobDocument): readonly Visit[] => job.visits ?? [];
export const entriesOf = (job: JobDocument): readonly LogEntry[] => visitsOf(job).flatMap((visit) => (isLogged(visit) ? visit.log : []));

/** JSON with sorted keys: the same text for the same value, however it was stored meanwhile. */
export function canonicalText(value: unknown): string {
  return JSON.stringify(value, (_key, part: unknown) =>
    typeof part === 'object' && part !== null && !Array.isArray(part)
      ? Object.fromEntries(Object.entries(part).filter(([, member]) => member !== undefined).sort(([a], [b]) => order(a, b)))
      : part,
  );
}
