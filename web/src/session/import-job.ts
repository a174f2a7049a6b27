// SPDX-License-Identifier: Apache-2.0
// Takes a job file in, and hands one out.
import type { JobDocument } from '../job/document';
import { randomId } from '../job/ids';
import { renamePictures } from '../job/pictures';
import { applyOperations } from '../job/operations';
import { readJobFile, writeJobFile } from '../storage/job-file';
import { paperKinds, ServerWorkspace } from '../storage/server';
import type { App } from './app.svelte';
import { addJob } from './job-list';

export interface Imported {
  readonly document: JobDocument;
  readonly missingPictures: number;
  /** The job was here already: this is a copy of it. */
  readonly copied: boolean;
}

export async function importJob(app: App, file: Blob): Promise<Imported> {
  const { document, pictures, missing } = await readJobFile(file);
  const taken = await app.workspace.list().then((list) => list.some(({ id }) => id === document.id), () => false);
  const renamed = taken || !/^[A-Za-z0-9._-]{1,64}$/.test(document.id);
  const named = renamed ? { ...document, id: randomId('job', 12), title: taken ? `${document.title ?? 'Job'} (imported)` : (document.title ?? '') } : document;
  for (const blob of pictures.values()) await app.pictures.put(blob);
  const names = await app.pictures.send(pictures.keys()).catch(() => new Map<string, string>());
  const { document: final } = applyOperations(named, renamePictures(named, names));
  await addJob(app, final, 'Imported');
  return { document: final, missingPictures: missing.length, copied: taken };
}

export interface Exported {
  readonly file: Blob;
  /** What the file lacks and why: papers, tables, pictures; each a sentence. */
  readonly lacks: readonly string[];
}

/** Everything that belongs to the job. What cannot be made is left out and named: the document itself always leaves. */
export async function exportJob(app: App, document: JobDocument): Promise<Exported> {
  const lacks: string[] = [];
  const orNamed = async <T>(what: string, work: () => Promise<readonly T[]>): Promise<readonly T[]> => {
    try {
      return await work();
    } catch (error) {
      lacks.push(`${what} are not in the file: ${error instanceof Error ? error.message : String(error)}`);
      return [];
    }
  };
  const texts = await orNamed('The tables', () => app.engine.exportTexts(document));
  const { workspace } = app;
  const papers = workspace instanceof ServerWorkspace ? await orNamed('The papers', () => makePapers(workspace, document)) : [];
  let unread = 0;
  const picture = (hash: string): Promise<Blob | undefined> => app.pictures.get(hash).catch(() => void (unread += 1));
  const file = await writeJobFile(document, picture, { texts, papers });
  if (unread > 0) lacks.push(`${unread} ${unread === 1 ? 'picture is' : 'pictures are'} not in the file: not in this browser, and not to be had from the server.`);
  return { file, lacks };
}

const pauseMilliseconds = 300;

async function makePapers(server: ServerWorkspace, document: JobDocument): Promise<{ name: string; blob: Blob }[]> {
  const units = document.site.units ?? 'metric';
  const { id } = await server.beginPapers(document, { size: units === 'us' ? 'letter' : 'a4', units, only: paperKinds });
  try {
    let standing = await server.papers(id);
    while (standing.state === 'working') {
      await new Promise((resolve) => setTimeout(resolve, pauseMilliseconds));
      standing = await server.papers(id);
    }
    if (standing.state === 'failed') throw new Error(standing.message);
    return await Promise.all(standing.files.map(async ({ name }) => ({ name, blob: await server.paperFile(id, name) })));
  } finally {
    await server.endPapers(id).catch(() => undefined);
  }
}

/** A file name that any system takes. */
export function fileNameOf(document: JobDocument): string {
  const stem = (document.title || document.id).normalize('NFKD').replace(/[^A-Za-z0-9]+/g, '-').replace(/^-+|-+$/g, '');
  return `${stem.toLowerCase() || 'job'}.zip`;
}
