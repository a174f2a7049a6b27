// SPDX-License-Identifier: Apache-2.0
// Opens a job: the workspace's revision, or what lies unsent on the desk, with the undo history that belongs to it.
import { StorageFailure, type OpenedJob } from '../storage/workspace';
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
  return new JobSession(app, startingPoint(opened, row));
}

export function startingPoint(opened: OpenedJob | undefined, row: DeskRow | undefined): Opening {
  if (row?.unsent) return { document: row.document, revision: row.revision, history: row.history, unsent: row.unsent };
  if (opened && row?.revision === opened.revision) {
    return { document: opened.document, revision: opened.revision, history: row.history };
  }
  if (opened) return { document: opened.document, revision: opened.revision };
  if (row) return { document: row.document, revision: row.revision, history: row.history };
  throw new StorageFailure('not_found', 'The job is neither here nor there.');
}
