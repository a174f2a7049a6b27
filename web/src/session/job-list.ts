// SPDX-License-Identifier: Apache-2.0
// The list of jobs with what lies unsent on this device; without an answer of the workspace the last known list.
import type { JobDocument } from '../job/document';
import { randomId } from '../job/ids';
import { emptyHistory } from '../job/history';
import type { DeskRow } from '../storage/desk';
import { entryOf } from '../storage/entry';
import { StorageFailure, type JobEntry } from '../storage/workspace';
import type { App } from './app.svelte';

export interface JobList {
  readonly entries: readonly JobEntry[];
  /** Ids of jobs with work that only this device has. */
  readonly unsent: ReadonlySet<string>;
  /** Why the list is not fresh, and from when it is. */
  readonly stale: { readonly why: string; readonly seen: string | undefined } | undefined;
}

export async function loadJobs({ workspace, desk }: App): Promise<JobList> {
  const waiting = await desk.unsent().catch(() => []);
  const unsent = new Set(waiting.map(({ id }) => id));
  try {
    const entries = await workspace.list();
    await desk.keepList(entries).catch(() => undefined);
    return { entries: overlaid(entries, waiting), unsent, stale: undefined };
  } catch (error) {
    if (!(error instanceof StorageFailure) || error.kind === 'refused') throw error;
    const kept = await desk.keptList().catch(() => undefined);
    return { entries: overlaid(kept?.entries ?? [], waiting), unsent, stale: { why: error.message, seen: kept?.seen } };
  }
}

// What is on the desk is newer than what the workspace knows.
function overlaid(entries: readonly JobEntry[], waiting: readonly DeskRow[]): JobEntry[] {
  const list = new Map(entries.map((entry) => [entry.id, entry]));
  for (const row of waiting) {
    const known = list.get(row.id);
    const changed = row.unsent?.since ?? known?.changed ?? '';
    list.set(row.id, entryOf(row.document, { revision: row.revision, changed }, known?.archived ?? false, null));
  }
  return [...list.values()].sort((a, b) => b.changed.localeCompare(a.changed));
}

/** Puts a new job into the workspace, or on the desk where that is away. */
export async function addJob({ workspace, desk }: App, document: JobDocument, label: string): Promise<void> {
  const saveId = randomId('save', 16);
  try {
    await workspace.save({ id: document.id, baseRevision: 0, saveId, document, label });
  } catch (error) {
    if (!(error instanceof StorageFailure) || !['unreachable', 'unauthorised'].includes(error.kind)) throw error;
    const unsent = { label, since: new Date().toISOString(), tried: [saveId] };
    await desk.put({ id: document.id, revision: 0, document, history: emptyHistory, unsent });
  }
}

/** Tries to send what waits on the desk; conflicts wait for the person who opens the job. Returns how many went. */
export async function sendWaiting(app: App): Promise<number> {
  let sent = 0;
  for (const row of await app.desk.unsent()) {
    try {
      if (await sendRow(app, row)) sent += 1;
    } catch {
      break; // away: none of the others would get through
    }
  }
  return sent;
}

async function sendRow({ workspace, desk }: Pick<App, 'workspace' | 'desk'>, row: DeskRow): Promise<boolean> {
  const saveId = randomId('save', 16);
  const unsent = { label: '', since: '', ...row.unsent, tried: [...(row.unsent?.tried ?? []), saveId] };
  await desk.put({ ...row, unsent });
  const save = { id: row.id, saveId, document: row.document, label: unsent.label };
  try {
    const { revision, checksum } = await workspace.save({ ...save, baseRevision: row.revision, baseChecksum: row.checksum });
    await desk.put({ ...row, revision, checksum, unsent: null });
    return true;
  } catch (error) {
    if (error instanceof StorageFailure && error.kind === 'not_found' && row.revision > 0) {
      // A backup from before the job was put back: what is here makes it again.
      return sendRow({ workspace, desk }, { ...row, revision: 0, checksum: undefined });
    }
    if (!(error instanceof StorageFailure) || error.kind !== 'conflict') throw error;
    // Our own earlier save whose answer was lost: go on from there. Else a person has to decide.
    const own = error.currentSaveId !== undefined && unsent.tried.includes(error.currentSaveId);
    if (!own || error.currentRevision === undefined) return false;
    const { revision, checksum } = await workspace.save({ ...save, baseRevision: error.currentRevision, baseChecksum: error.currentChecksum });
    await desk.put({ ...row, revision, checksum, unsent: null });
    return true;
  }
}
