// SPDX-License-Identifier: Apache-2.0
// The logs of an open job's visits as this device writes them: each entry goes into the outbox first and then into the
// document; what the outbox holds and the document lacks (another version was taken) is put back.
import { equal } from '../job/difference';
import type { JobDocument } from '../job/document';
import { randomId } from '../job/ids';
import type { JobStore } from '../job/store.svelte';
import { isLogged, type Visit } from '../job/visit';
import { entriesOf, joinedVisits, nextMoment, nextNumber, visitsOf, withEntries, type LogBody, type LogEntry } from '../job/visit-log';
import { logFile, type LogFile, type Outbox, readLogFile } from '../storage/outbox';
import type { OpenedJob } from '../storage/workspace';

const deviceKey = 'duskwire-device';

/** This device's name in logs: random, kept by the browser. */
export function deviceId(): string {
  try {
    const known = localStorage.getItem(deviceKey);
    if (known) return known;
    const made = randomId('device');
    localStorage.setItem(deviceKey, made);
    return made;
  } catch {
    return randomId('device');
  }
}

export class FieldLog {
  /** Entries that the workspace has not been seen to hold. */
  unsent = $state(0);
  /** Since when, ISO 8601. */
  since: string | undefined = $state();
  /** What another device wrote, as it came in. */
  cameIn: { readonly entries: number; readonly at: string } | undefined = $state.raw();

  #store: JobStore;
  #outbox: Outbox;
  #device: string;
  #now: () => Date;
  // What touches the outbox goes one after the other, so that a count is never older than the one before it. Entries that
  // are on their way count for the numbers of the next ones.
  #onTheWay: readonly LogEntry[] = [];
  #last: Promise<unknown> = Promise.resolve();

  constructor(store: JobStore, outbox: Outbox, device: string, now: () => Date = () => new Date()) {
    this.#store = store;
    this.#outbox = outbox;
    this.#device = device;
    this.#now = now;
  }

  /** What was written before and is not in the document goes in; then counts. */
  resume(): Promise<void> {
    return this.#next(async () => {
      await this.#outbox.prune().catch(() => undefined);
      const rows = await this.#outbox.rows(this.#store.document.id);
      this.#putIn('Log of this device', rows.map(({ entry }) => entry));
      await this.#count();
    });
  }

  /** Begins a visit; returns its id. */
  async begin(facts: Pick<Visit, 'date' | 'kind'> & Partial<Visit>): Promise<string> {
    const visit = randomId('visit');
    await this.write(visit, { kind: 'facts', facts });
    return visit;
  }

  write(visit: string, body: LogBody): Promise<LogEntry> {
    const { document } = this.#store;
    const seen = [...entriesOf(document), ...this.#onTheWay].filter((one) => one.visit === visit);
    const entry: LogEntry = { ...body, id: randomId('entry'), visit, device: this.#device, number: nextNumber(seen, this.#device), at: nextMoment(seen, this.#now()) };
    this.#onTheWay = [...this.#onTheWay, entry];
    this.unsent += 1;
    this.since ??= entry.at;
    return this.#next(async () => {
      try {
        await this.#outbox.put(document, entry);
        this.#putIn('Log of a visit', [entry]);
      } finally {
        this.#onTheWay = this.#onTheWay.filter((one) => one !== entry);
        await this.#count();
      }
      return entry;
    });
  }

  /** The other side's logs, beside ours. */
  takeIn(theirs: readonly Visit[]): void {
    const before = new Set(entriesOf(this.#store.document).map(({ id }) => id));
    this.#setVisits('Log of another device', joinedVisits(visitsOf(this.#store.document), theirs));
    this.#tellWhatCame(before);
  }

  async takeInFile(text: string): Promise<number> {
    const entries = await readLogFile(text, this.#store.document.id);
    const before = new Set(entriesOf(this.#store.document).map(({ id }) => id));
    this.#putIn('Log taken in from a file', entries);
    return this.#tellWhatCame(before);
  }

  /** The workspace holds this document now: what is in it has been received. */
  received({ document, revision, changed }: OpenedJob): Promise<void> {
    return this.#next(async () => {
      await this.#outbox.receive(document, revision, changed);
      await this.#count();
    });
  }

  async file(): Promise<LogFile> {
    const { document } = this.#store;
    return logFile(document, await this.#outbox.rows(document.id));
  }

  #next<T>(work: () => Promise<T>): Promise<T> {
    const done = this.#last.then(work);
    this.#last = done.catch(() => undefined);
    return done;
  }

  #tellWhatCame(before: ReadonlySet<string>): number {
    const entries = entriesOf(this.#store.document).filter(({ id }) => !before.has(id)).length;
    if (entries > 0) this.cameIn = { entries, at: this.#now().toISOString() };
    return entries;
  }

  #putIn(label: string, entries: readonly LogEntry[]): void {
    const known = new Set(entriesOf(this.#store.document).map(({ id }) => id));
    const more = entries.filter(({ id }) => !known.has(id));
    if (more.length > 0) this.#setVisits(label, withEntries(visitsOf(this.#store.document), more));
  }

  #setVisits(label: string, visits: readonly Visit[]): void {
    if (!equal(visits, visitsOf(this.#store.document))) this.#store.append(label, [{ op: 'set', path: ['visits'], value: visits }]);
  }

  async #count(): Promise<void> {
    const rows = await this.#outbox.unsent(this.#store.document.id);
    const kept = rows.map(({ entry }) => entry);
    const unsent = [...kept, ...this.#onTheWay.filter((one) => !kept.some(({ id }) => id === one.id))];
    this.unsent = unsent.length;
    this.since = unsent.map(({ at }) => at).sort()[0];
  }
}

export const loggedVisits = (job: JobDocument) => visitsOf(job).filter(isLogged);
