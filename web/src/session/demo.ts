// SPDX-License-Identifier: Apache-2.0
// The demo garden with its photograph, as a job of one's own.
import type { JobDocument } from '../job/document';
import { randomId } from '../job/ids';
import type { App } from './app.svelte';
import { addJob } from './job-list';

const fetched = async (address: string): Promise<Response> => {
  const response = await fetch(address);
  if (!response.ok) throw new Error('The demo garden could not be fetched. Try again when there is a connection.');
  return response;
};

export async function takeDemo(app: App, addresses: { readonly document: string; readonly pictures: readonly string[] }): Promise<JobDocument> {
  const document = (await (await fetched(addresses.document)).json()) as JobDocument;
  const copy = { ...document, id: randomId('job', 12) };
  const pictures = await Promise.all(addresses.pictures.map(async (address) => app.pictures.put(await (await fetched(address)).blob())));
  // Without the server they stay here and follow with the next change.
  await app.pictures.send(pictures).catch(() => undefined);
  await addJob(app, copy, 'Demo');
  return copy;
}
