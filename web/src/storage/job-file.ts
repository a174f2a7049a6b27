// SPDX-License-Identifier: Apache-2.0
// A job as one file: the document alone as JSON, or a ZIP with the document and its pictures by hash (docs/job-file.md).
import type { JobDocument } from '../job/document';
import { pictureRefs } from '../job/pictures';
import { imageSize } from './image-size';
import { mostPixels } from './picture';
import { sha256Hex } from './sha256';
import { readZip, writeZip, ZipError, type ZipEntry } from './zip';

export class JobFileRefusal extends Error {}

export interface JobFile {
  readonly document: JobDocument;
  readonly pictures: ReadonlyMap<string, Blob>;
  /** Pictures that the document refers to and the file lacks. */
  readonly missing: readonly string[];
}

export const mostFileBytes = 512 * 2 ** 20;

const readme = `A garden lighting job.

job.json      the job: format "duskwire-job", SI units, each key with its unit (length_m, power_w)
pictures/     its pictures; each name is the SHA-256 of the content, as the job refers to it
`;

const endings: Record<string, string> = { 'image/jpeg': 'jpg', 'image/png': 'png', 'image/webp': 'webp' };

export async function writeJobFile(document: JobDocument, picture: (hash: string) => Promise<Blob>): Promise<Blob> {
  const hashes = [...new Set(pictureRefs(document).map(({ hash }) => hash))];
  const text = new TextEncoder();
  const entries: ZipEntry[] = [
    { name: 'README.txt', bytes: text.encode(readme) },
    { name: 'job.json', bytes: text.encode(`${JSON.stringify(document, null, 2)}\n`) },
  ];
  for (const hash of hashes) {
    const blob = await picture(hash);
    entries.push({ name: `pictures/${hash}.${endings[blob.type] ?? 'bin'}`, bytes: new Uint8Array(await blob.arrayBuffer()) });
  }
  return writeZip(entries);
}

export async function readJobFile(file: Blob): Promise<JobFile> {
  if (file.size > mostFileBytes) throw new JobFileRefusal('The file is larger than any job file.');
  const bytes = new Uint8Array(await file.arrayBuffer());
  const zipped = bytes[0] === 0x50 && bytes[1] === 0x4b;
  const entries = zipped ? await unzip(bytes) : [{ name: 'job.json', bytes }];
  const job = entries.find(({ name }) => name === 'job.json');
  if (!job) throw new JobFileRefusal('There is no job.json in the file: it is no job file.');
  const document = parseJob(job.bytes);
  const pictures = await picturesIn(entries);
  const missing = [...new Set(pictureRefs(document).map(({ hash }) => hash))].filter((hash) => !pictures.has(hash));
  return { document, pictures, missing };
}

async function unzip(bytes: Uint8Array<ArrayBuffer>): Promise<ZipEntry[]> {
  try {
    return await readZip(bytes);
  } catch (error) {
    if (error instanceof ZipError) throw new JobFileRefusal(error.message);
    throw error;
  }
}

function parseJob(bytes: Uint8Array): JobDocument {
  let value: unknown;
  try {
    value = JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
  } catch (error) {
    throw new JobFileRefusal(`The file is no job: ${error instanceof SyntaxError ? error.message : 'it is not UTF-8 text'}.`);
  }
  const { format, version, id, site } = (value ?? {}) as Record<string, unknown>;
  if (format !== 'duskwire-job') throw new JobFileRefusal('The file is JSON, but no job: its "format" is not "duskwire-job".');
  if (version !== 1) throw new JobFileRefusal(`The job has format version ${String(version)}; this page knows version 1. Update the page.`);
  if (typeof id !== 'string' || typeof site !== 'object' || site === null) {
    throw new JobFileRefusal('The job lacks its "id" or its "site".');
  }
  return value as JobDocument;
}

// A picture goes by what it is, not by what it is called.
async function picturesIn(entries: readonly ZipEntry[]): Promise<Map<string, Blob>> {
  const pictures = new Map<string, Blob>();
  for (const { name, bytes } of entries) {
    const size = name.startsWith('pictures/') ? imageSize(bytes) : undefined;
    if (!size || size.widthPx * size.heightPx > mostPixels) continue;
    pictures.set(await sha256Hex(bytes.buffer), new Blob([bytes], { type: size.type }));
  }
  return pictures;
}
