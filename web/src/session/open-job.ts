// SPDX-License-Identifier: Apache-2.0
// Opens a job: the workspace's revision, or what lies unsent on the desk, with the undo history that belongs to it.
import { isOther, StorageFailure, type OpenedJob } from '../storage/workspace';
import type { DeskRow } from '../storage/desk';
import type { App } from './app.svelte';
import { JobSession, type Opening } from './job-session.svelte';

export async function openJob(app: App, id: string): Promise<JobSession> {
  const { workspace, desk } = app;
  const row = await desk.get(id).catch(() => undefined);
  const opened = await workspace.open(id).catch((error: unknown) => {
    // Without an answer the desk's copy is all there is, and good enough to go on with.
    if (row && error instanceof StorageFailure && (error.kind === 'unreachable' || row.unsent)) return undefined;
    throw error;
  });
  const lost = opened !== undefined && row !== undefined && (await hasLost(app, opened, row));
  return new JobSession(app, startingPoint(opened, row, lost));
}

/** Whether a backup was put back, and the workspace does not have the revision any more that it once had from here. */
export async function hasLost({ workspace }: Pick<App, 'workspace'>, opened: OpenedJob, row: DeskRow): Promise<boolean> {
  if (row.unsent || row.checksum === undefined || row.revision === 0) return false;
  if (row.revision > opened.revision) return true;
  if (row.revision === opened.revision) return isOther(opened, row);
  return workspace.openRevision(row.id, row.revision).then((then) => isOther(then, row), () => false);
}

export function startingPoint(opened: OpenedJob | undefined, row: DeskRow | undefined, lost = false): Opening {
  // What the workspace has lost is here alone: it is sent, and both sides are shown where they differ.
  if (row && lost) {
    const unsent = { label: 'Kept from before the workspace was put back', since: new Date().toISOString(), tried: [] };
    return { document: row.document, revision: row.revision, checksum: row.checksum, history: row.history, unsent };
  }
  if (row?.unsent) return { document: row.document, revision: row.revision, checksum: row.checksum, history: row.history, unsent: row.unsent };
  if (opened && row?.revision === opened.revision) {
    return { document: opened.document, revision: opened.revision, checksum: opened.checksum, history: row.history };
  }
  if (opened) return { document: opened.document, revision: opened.revision, checksum: opened.checksum };
  if (row) return { document: row.document, revision: row.revision, checksum: row.checksum, history: row.history };
  throw new StorageFailure('not_found', 'The job is neither here nor there.');
}
