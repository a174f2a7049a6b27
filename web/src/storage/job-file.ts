// SPDX-License-Identifier: Apache-2.0
// A job as one file: the document alone as JSON, or a ZIP with the document, its pictures by hash, tables, papers, a
// README and checksums (docs/job-file.md).
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

export interface FileText {
  /** In the archive: tables/lamps.csv. */
  readonly name: string;
  readonly text: string;
}

/** What goes into a file beside the document and its pictures. */
export interface FileParts {
  /** README.txt, tables and schema, of the engine; empty where it cannot read the document. */
  readonly texts: readonly FileText[];
  readonly papers: readonly { readonly name: string; readonly blob: Blob }[];
}

const sumsName = 'SHA256SUMS';

// Where the engine gave no better one.
const plainReadme: FileText = {
  name: 'README.txt',
  text: `A garden lighting job.

job.json      the job: format "duskwire-job", SI units, each key with its unit (length_m, power_w)
pictures/     its pictures; each name is the SHA-256 of the content, as the job refers to it
SHA256SUMS    SHA-256 of every other file. To check: sha256sum -c SHA256SUMS

There are no tables: the job could not be calculated when this file was written.
`,
};

const endings: Record<string, string> = { 'image/jpeg': 'jpg', 'image/png': 'png', 'image/webp': 'webp' };

const bytesOf = async (blob: Blob): Promise<Uint8Array<ArrayBuffer>> => new Uint8Array(await blob.arrayBuffer());

/** A picture that is not there is left out. */
export async function writeJobFile(document: JobDocument, picture: (hash: string) => Promise<Blob | undefined>, parts: FileParts = { texts: [], papers: [] }): Promise<Blob> {
  const encoder = new TextEncoder();
  const textEntry = ({ name, text }: FileText): ZipEntry => ({ name, bytes: encoder.encode(text) });
  const [readme = plainReadme, ...tables] = parts.texts;
  const entries = [readme, { name: 'job.json', text: `${JSON.stringify(document, null, 2)}\n` }, ...tables].map(textEntry);
  for (const hash of new Set(pictureRefs(document).map((ref) => ref.hash))) {
    const blob = await picture(hash);
    if (blob) entries.push({ name: `pictures/${hash}.${endings[blob.type] ?? 'bin'}`, bytes: await bytesOf(blob) });
  }
  for (const { name, blob } of parts.papers) entries.push({ name: `papers/${name}`, bytes: await bytesOf(blob) });
  const sums: string[] = [];
  for (const { name, bytes } of entries) sums.push(`${await sha256Hex(bytes.buffer)}  ${name}\n`);
  return writeZip([...entries, textEntry({ name: sumsName, text: sums.join('') })]);
}

export async function readJobFile(file: Blob): Promise<JobFile> {
  if (file.size > mostFileBytes) throw new JobFileRefusal('The file is larger than any job file.');
  const bytes = new Uint8Array(await file.arrayBuffer());
  const zipped = bytes[0] === 0x50 && bytes[1] === 0x4b;
  const entries = zipped ? await unzip(bytes) : [{ name: 'job.json', bytes }];
  await checkSums(entries);
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

// A file of before has no checksums: then those of the archive itself must do.
async function checkSums(entries: readonly ZipEntry[]): Promise<void> {
  const sums = entries.find(({ name }) => name === sumsName);
  if (!sums) return;
  for (const line of new TextDecoder().decode(sums.bytes).split(/\r?\n/)) {
    if (line === '') continue;
    const [, wanted, name] = /^([0-9a-f]{64}) [ *](.+)$/.exec(line) ?? [];
    if (name === undefined) throw new JobFileRefusal('SHA256SUMS in the file is no list of checksums. Nothing was taken in.');
    const entry = entries.find((one) => one.name === name);
    if (!entry) throw new JobFileRefusal('The file lacks a part that its SHA256SUMS names. Nothing was taken in. Fetch or copy the file again.');
    if ((await sha256Hex(entry.bytes.buffer)) !== wanted) {
      throw new JobFileRefusal(`"${entry.name}" does not match its SHA-256: it was changed or damaged. Nothing was taken in. Fetch or copy the file again.`);
    }
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
