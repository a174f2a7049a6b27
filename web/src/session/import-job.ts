// SPDX-License-Identifier: Apache-2.0
// Takes a job file in, and hands one out.
import type { JobDocument } from '../job/document';
import { randomId } from '../job/ids';
import { renamePictures } from '../job/pictures';
import { applyOperations } from '../job/operations';
import { readJobFile, writeJobFile } from '../storage/job-file';
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

export async function exportJob(app: App, document: JobDocument): Promise<Blob> {
  return writeJobFile(document, (hash) => app.pictures.get(hash));
}

/** A file name that any system takes. */
export function fileNameOf(document: JobDocument): string {
  const stem = (document.title || document.id).normalize('NFKD').replace(/[^A-Za-z0-9]+/g, '-').replace(/^-+|-+$/g, '');
  return `${stem.toLowerCase() || 'job'}.zip`;
}
