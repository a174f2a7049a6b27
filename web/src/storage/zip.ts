// SPDX-License-Identifier: Apache-2.0
// ZIP archives (APPNOTE 6.3.10), as much of them as a job file needs: written without compression (pictures are
// compressed already), read stored or deflated, every length and checksum checked, nothing outside the archive named.

export interface ZipEntry {
  readonly name: string;
  readonly bytes: Uint8Array<ArrayBuffer>;
}

export class ZipError extends Error {}

const localHeader = 0x04034b50;
const centralHeader = 0x02014b50;
const endOfDirectory = 0x06054b50;
const utf8Names = 0x0800;
export const mostEntries = 2000;
export const mostUnpackedBytes = 512 * 2 ** 20;

// CRC-32 of ISO 3309, reflected.
const crcTable = Uint32Array.from({ length: 256 }, (_, byte) => {
  let crc = byte;
  for (let bit = 0; bit < 8; bit += 1) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
  return crc;
});

export function crc32(bytes: Uint8Array): number {
  let crc = 0xffffffff;
  for (const byte of bytes) crc = (crc >>> 8) ^ crcTable[(crc ^ byte) & 255]!;
  return ~crc >>> 0;
}

export function writeZip(entries: readonly ZipEntry[]): Blob {
  const parts: Uint8Array<ArrayBuffer>[] = [];
  const directory: Uint8Array<ArrayBuffer>[] = [];
  let offset = 0;
  for (const { name, bytes } of entries) {
    const encoded = new TextEncoder().encode(name);
    const common = commonFields(encoded, bytes);
    const local = fields([[4, localHeader], ...common, [2, 0]], encoded);
    const central: Field[] = [[4, centralHeader], [2, 20], ...common, [2, 0], [2, 0], [2, 0], [2, 0], [4, 0], [4, offset]];
    directory.push(fields(central, encoded));
    parts.push(local, bytes);
    offset += local.length + bytes.length;
  }
  const size = directory.reduce((sum, { length }) => sum + length, 0);
  const count = entries.length;
  const end = fields([[4, endOfDirectory], [2, 0], [2, 0], [2, count], [2, count], [4, size], [4, offset], [2, 0]]);
  return new Blob([...parts, ...directory, end], { type: 'application/zip' });
}

type Field = readonly [2 | 4, number];

// Version, flags, method stored, 1980-01-01 00:00 (the same job gives the same file), checksum, lengths.
function commonFields(name: Uint8Array, bytes: Uint8Array): Field[] {
  return [[2, 20], [2, utf8Names], [2, 0], [2, 0], [2, 33], [4, crc32(bytes)], [4, bytes.length], [4, bytes.length], [2, name.length]];
}

function fields(list: readonly Field[], tail: Uint8Array = new Uint8Array()): Uint8Array<ArrayBuffer> {
  const length = list.reduce((sum, [width]) => sum + width, 0);
  const bytes = new Uint8Array(length + tail.length);
  const view = new DataView(bytes.buffer);
  let offset = 0;
  for (const [width, value] of list) {
    if (width === 2) view.setUint16(offset, value, true);
    else view.setUint32(offset, value, true);
    offset += width;
  }
  bytes.set(tail, length);
  return bytes;
}

export async function readZip(archive: Uint8Array<ArrayBuffer>): Promise<ZipEntry[]> {
  const view = new DataView(archive.buffer, archive.byteOffset, archive.byteLength);
  try {
    const entries: ZipEntry[] = [];
    for (const row of directoryOf(view)) {
      if (row.name.endsWith('/')) continue;
      const bytes = await unpack(archive, view, row);
      if (crc32(bytes) !== row.crc) throw new ZipError(`The file is damaged: ${row.name} does not match its checksum.`);
      entries.push({ name: row.name, bytes });
    }
    return entries;
  } catch (error) {
    if (error instanceof RangeError) throw new ZipError('The file is cut short.');
    throw error;
  }
}

interface Row {
  readonly name: string;
  readonly method: number;
  readonly crc: number;
  readonly packed: number;
  readonly size: number;
  readonly offset: number;
  /** As Unix has it, where the archive was made by one; else 0. */
  readonly mode: number;
}

function directoryOf(view: DataView): Row[] {
  const end = findEnd(view);
  const count = view.getUint16(end + 10, true);
  if (count > mostEntries) throw new ZipError(`The file holds ${count} parts; at most ${mostEntries} can be taken in.`);
  const rows: Row[] = [];
  let at = view.getUint32(end + 16, true);
  for (let index = 0; index < count; index += 1) {
    if (view.getUint32(at, true) !== centralHeader) throw new ZipError('The list of parts in the file is damaged.');
    const [nameLength, extra, comment] = [28, 30, 32].map((field) => view.getUint16(at + field, true)) as [number, number, number];
    rows.push({
      name: new TextDecoder().decode(new Uint8Array(view.buffer, view.byteOffset + at + 46, nameLength)),
      mode: madeByUnix(view.getUint8(at + 5)) ? view.getUint16(at + 40, true) : 0,
      method: view.getUint16(at + 10, true),
      crc: view.getUint32(at + 16, true),
      packed: view.getUint32(at + 20, true),
      size: view.getUint32(at + 24, true),
      offset: view.getUint32(at + 42, true),
    });
    at += 46 + nameLength + extra + comment;
  }
  checkNames(rows);
  const size = rows.reduce((sum, row) => sum + row.size, 0);
  if (size > mostUnpackedBytes) throw new ZipError(`The file unpacks to more than ${mostUnpackedBytes / 2 ** 20} MB: more than any job. Nothing was taken in.`);
  return rows;
}

// APPNOTE 4.4.2: 3 is Unix, 19 OS X.
const madeByUnix = (system: number): boolean => system === 3 || system === 19;

function findEnd(view: DataView): number {
  // The record has 22 bytes and a comment of up to 65,535 behind it.
  for (let at = view.byteLength - 22; at >= Math.max(0, view.byteLength - 65_557); at -= 1) {
    if (view.getUint32(at, true) === endOfDirectory) return at;
  }
  throw new ZipError('This is no ZIP file, or its end is missing.');
}

// Parts of A-Z a-z 0-9 . _ - between "/", none of them dots alone, ending in a dot, or a device of some system: such a
// name means the same everywhere (docs/job-file.md). A folder's ends in "/".
const device = /^(?:con|prn|aux|nul|com[0-9]|lpt[0-9])(?:\.|$)/i;
const isPortable = (part: string): boolean => /^[A-Za-z0-9._-]*[A-Za-z0-9_-]$/.test(part) && !device.test(part);

// For a message: on one line, nothing that turns it round.
const shown = (name: string): string => (name.length > 80 ? `${name.slice(0, 80)}...` : name).replace(/[^\x20-\x7e]/g, '?');

function checkNames(rows: readonly Row[]): void {
  const taken = new Set<string>();
  for (const { name, mode } of rows) {
    const bare = name.endsWith('/') ? name.slice(0, -1) : name;
    const refuse = (why: string): never => {
      throw new ZipError(`The file holds "${shown(name)}", ${why}. Nothing was taken in.`);
    };
    if (name.length > 240 || !bare.split('/').every(isPortable)) refuse('a name that is no plain path inside it');
    if (taken.has(bare.toLowerCase())) refuse('a name that comes twice, but for upper and lower case');
    taken.add(bare.toLowerCase());
    // The first digit of a file's mode is its kind: 8 a plain file, 4 a folder, 0 not told.
    if (mode >>> 12 !== 0 && mode >>> 12 !== (name === bare ? 8 : 4)) refuse('which is a link or a device and no file');
  }
}

async function unpack(archive: Uint8Array<ArrayBuffer>, view: DataView, row: Row): Promise<Uint8Array<ArrayBuffer>> {
  if (view.getUint32(row.offset, true) !== localHeader) throw new ZipError(`The file is damaged at ${row.name}.`);
  const start = row.offset + 30 + view.getUint16(row.offset + 26, true) + view.getUint16(row.offset + 28, true);
  if (start + row.packed > archive.length) throw new ZipError('The file is cut short.');
  const packed = archive.slice(start, start + row.packed);
  const bytes = row.method === 0 ? packed : await inflate(packed, row);
  if (bytes.length !== row.size) throw new ZipError(`The file is damaged: ${row.name} has a wrong length.`);
  return bytes;
}

// Reads no more than the directory promised, whatever the stream would unpack to.
async function inflate(packed: Uint8Array<ArrayBuffer>, row: Row): Promise<Uint8Array<ArrayBuffer>> {
  if (row.method !== 8) throw new ZipError(`${row.name} is compressed in a way that is not supported.`);
  const reader = new Blob([packed]).stream().pipeThrough(new DecompressionStream('deflate-raw')).getReader();
  const bytes = new Uint8Array(row.size);
  let at = 0;
  for (;;) {
    const { done, value } = await reader.read().catch(() => {
      throw new ZipError(`The file is damaged: ${row.name} cannot be unpacked.`);
    });
    if (done) break;
    if (at + value.length > row.size) {
      await reader.cancel();
      throw new ZipError(`The file is damaged: ${row.name} is longer than it says.`);
    }
    bytes.set(value, at);
    at += value.length;
  }
  return bytes.slice(0, at);
}
