// SPDX-License-Identifier: Apache-2.0
// The outbox: every entry that this device wrote into the log of a visit, kept here first. It counts as sent once the
// workspace gave back what it stored and the hash of that is the hash of what was written. Sent entries stay for a
// while, so that the raw log can be handed over as one file.
import type { JobDocument } from '../job/document';
import { canonicalText, entriesOf, type LogEntry } from '../job/visit-log';
import type { Database, Stores } from './database';
import { sha256Hex } from './sha256';

export type OutboxRow = Stores['outbox'];

const keptDays = 90;

export const entryHash = (entry: LogEntry): Promise<string> => sha256Hex(new TextEncoder().encode(canonicalText(entry)).buffer as ArrayBuffer);

/** The raw log as one file: readable without this program. */
export interface LogFile {
  readonly format: 'duskwire-log';
  readonly version: 1;
  readonly job: string;
  readonly title: string;
  readonly entries: readonly { readonly hash: string; readonly entry: LogEntry }[];
}

export class Outbox {
  #database: Database;
  #workspace: string;

  constructor(database: Database, workspace: string) {
    this.#database = database;
    this.#workspace = workspace;
  }

  /** Durable once the promise fulfils. */
  async put(job: Pick<JobDocument, 'id' | 'title'>, entry: LogEntry): Promise<void> {
    const row: OutboxRow = { workspace: this.#workspace, id: entry.id, job: job.id, title: job.title ?? '', entry, hash: await entryHash(entry), received: null };
    await this.#database.run(['outbox'], 'readwrite', (t) => t.put('outbox', row));
  }

  async rows(job: string): Promise<readonly OutboxRow[]> {
    const all = await this.#database.run(['outbox'], 'readonly', (t) => t.all('outbox', IDBKeyRange.bound([this.#workspace], [this.#workspace, []])));
    return all.filter((row) => row.job === job);
  }

  async unsent(job: string): Promise<readonly OutboxRow[]> {
    return (await this.rows(job)).filter(({ received }) => received === null);
  }

  /**
   * Marks what the stored document holds, hash by hash. `at`: when the workspace stored it, by its own clock; a device's
   * may be off by a year. Returns how many are still unsent.
   */
  async receive(stored: JobDocument, revision: number, at: string): Promise<number> {
    const waiting = await this.unsent(stored.id);
    const there = new Map(entriesOf(stored).map((entry) => [entry.id, entry]));
    const held: OutboxRow[] = [];
    for (const row of waiting) {
      const entry = there.get(row.id);
      if (entry && (await entryHash(entry)) === row.hash) held.push({ ...row, received: { at, revision } });
    }
    if (held.length > 0) {
      await this.#database.run(['outbox'], 'readwrite', async (t) => {
        for (const row of held) await t.put('outbox', row);
      });
    }
    return waiting.length - held.length;
  }

  /** Lets go of what the workspace received long before the last that it received. The clock of this device is not asked. */
  async prune(): Promise<void> {
    await this.#database.run(['outbox'], 'readwrite', async (t) => {
      const rows = (await t.all('outbox', IDBKeyRange.bound([this.#workspace], [this.#workspace, []]))).filter(({ received }) => received !== null);
      const latest = Math.max(...rows.map(({ received }) => Date.parse(received!.at) || 0));
      for (const row of rows) {
        if ((Date.parse(row.received!.at) || 0) < latest - keptDays * 86_400_000) await t.delete('outbox', [row.workspace, row.id]);
      }
    });
  }
}

export async function logFile(job: JobDocument, rows: readonly OutboxRow[]): Promise<LogFile> {
  const entries = new Map(entriesOf(job).map((entry) => [entry.id, entry]));
  for (const { entry } of rows) entries.set(entry.id, entry);
  const list = [...entries.values()].sort((a, b) => (a.at < b.at ? -1 : a.at > b.at ? 1 : 0));
  return {
    format: 'duskwire-log', version: 1, job: job.id, title: job.title ?? '',
    entries: await Promise.all(list.map(async (entry) => ({ hash: await entryHash(entry), entry }))),
  };
}

/** What a log file holds for this job; an entry whose hash does not fit was damaged and is named. */
export async function readLogFile(text: string, job: string): Promise<readonly LogEntry[]> {
  let file: Partial<LogFile>;
  try {
    file = JSON.parse(text) as Partial<LogFile>;
  } catch {
    throw new Error('This file is no JSON. A log that the page handed over is needed (…-log.json).');
  }
  if (file.format !== 'duskwire-log' || file.version !== 1 || !Array.isArray(file.entries)) throw new Error('This file is no log of visits. A log that the page handed over is needed (…-log.json).');
  if (file.job !== job) throw new Error(`This log is of the job “${file.title || file.job}”. Open that job and take it in there.`);
  const entries: LogEntry[] = [];
  for (const [index, { hash, entry }] of file.entries.entries()) {
    if ((await entryHash(entry)) !== hash) throw new Error(`Entry ${index + 1} of the log was changed or damaged: its hash does not fit. Nothing was taken in. Hand the log over again.`);
    entries.push(entry);
  }
  return entries;
}
