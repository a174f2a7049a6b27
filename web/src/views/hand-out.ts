// SPDX-License-Identifier: Apache-2.0
// Hands the whole job to the person as one file. Papers take the server some seconds: it says so meanwhile.
import type { JobDocument } from '../job/document';
import { app } from '../session/app.svelte';
import { exportJob, fileNameOf } from '../session/import-job';
import { download } from '../ui/download';
import { say, sayTrouble } from '../ui/toasts.svelte';

export async function handOut(document: JobDocument): Promise<void> {
  if (app().standing === 'server') say('Putting the file together, with the papers.');
  const { file, lacks } = await exportJob(app(), document);
  download(file, fileNameOf(document));
  for (const lack of lacks) sayTrouble(lack);
}
