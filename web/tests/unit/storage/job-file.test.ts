// SPDX-License-Identifier: Apache-2.0
// The archives are held against Python's zipfile, both ways.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import type { JobDocument } from '../../../src/job/document';
import { JobFileRefusal, readJobFile, writeJobFile } from '../../../src/storage/job-file';
import { sha256Hex } from '../../../src/storage/sha256';
import { readZip, writeZip, ZipError } from '../../../src/storage/zip';
import { garden } from '../support/garden';

const folder = mkdtempSync(join(tmpdir(), 'job-file-'));
afterAll(() => rmSync(folder, { recursive: true }));
const python = (script: string, ...given: string[]): string => execFileSync('python3', ['-c', script, ...given], { encoding: 'utf8' });
const bytesOf = async (blob: Blob): Promise<Uint8Array<ArrayBuffer>> => new Uint8Array(await blob.arrayBuffer());

// The smallest head of a PNG of 3 by 2 that imageSize reads, with something behind it.
const png = new Uint8Array([0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10, 0, 0, 0, 13, 0x49, 0x48, 0x44, 0x52, 0, 0, 0, 3, 0, 0, 0, 2, 8, 6, 0, 0, 0]);

async function gardenWithPicture(): Promise<{ document: JobDocument; blob: Blob; hash: string }> {
  const blob = new Blob([png], { type: 'image/png' });
  const hash = await sha256Hex(png.buffer);
  const document = { ...garden(), plan: { underlay: { image: hash, m_per_px: 0.01 } }, painted: { unknown: 'kept' } };
  return { document, blob, hash };
}

describe('a job file', () => {
  it('brings document and pictures back as they were', async () => {
    const { document, blob, hash } = await gardenWithPicture();
    const read = await readJobFile(await writeJobFile(document, async () => blob));
    expect(read.document).toEqual(document);
    expect(await bytesOf(read.pictures.get(hash)!)).toEqual(png);
    expect(read.missing).toEqual([]);
  });

  it('brings its checksums along and holds what comes back against them', async () => {
    const { document, blob } = await gardenWithPicture();
    const parts = {
      texts: [{ name: 'README.txt', text: 'About' }, { name: 'tables/lamps.csv', text: 'lamp\r\n' }],
      papers: [{ name: 'owner.pdf', blob: new Blob(['%PDF-']) }],
    };
    const entries = await readZip(await bytesOf(await writeJobFile(document, async () => blob, parts)));
    const sums = entries.find(({ name }) => name === 'SHA256SUMS')!;
    expect(entries.map(({ name }) => name).slice(0, 3)).toEqual(['README.txt', 'job.json', 'tables/lamps.csv']);
    expect(new TextDecoder().decode(sums.bytes).trim().split('\n')).toHaveLength(entries.length - 1);
    await expect(readJobFile(writeZip(entries))).resolves.toMatchObject({ document, missing: [] });
    const changed = entries.map((entry) => (entry.name === 'tables/lamps.csv' ? { ...entry, bytes: new Uint8Array(3) } : entry));
    await expect(readJobFile(writeZip(changed))).rejects.toThrow('"tables/lamps.csv" does not match its SHA-256');
    await expect(readJobFile(writeZip(entries.filter(({ name }) => !name.startsWith('papers/'))))).rejects.toThrow('lacks a part');
    const noList = [...entries.filter((entry) => entry !== sums), { name: 'SHA256SUMS', bytes: new Uint8Array(9) }];
    await expect(readJobFile(writeZip(noList))).rejects.toThrow('no list of checksums');
  });

  it('is written without a picture that is gone, and names it when it comes back', async () => {
    const { document, hash } = await gardenWithPicture();
    expect((await readJobFile(await writeJobFile(document, async () => undefined))).missing).toEqual([hash]);
  });

  it('is the same bytes for the same job', async () => {
    const { document, blob } = await gardenWithPicture();
    const one = await bytesOf(await writeJobFile(document, async () => blob));
    expect(await bytesOf(await writeJobFile(document, async () => blob))).toEqual(one);
  });

  it('may be the bare document', async () => {
    const read = await readJobFile(new Blob([JSON.stringify(garden())]));
    expect(read.document).toEqual(garden());
  });

  it('names the pictures that it lacks', async () => {
    const { document, hash } = await gardenWithPicture();
    expect((await readJobFile(new Blob([JSON.stringify(document)]))).missing).toEqual([hash]);
  });

  it.each([
    ['nothing', ''],
    ['text', 'hello'],
    ['other JSON', '{"format": "other"}'],
    ['a later version', JSON.stringify({ ...garden(), version: 2 })],
    ['a job without site', JSON.stringify({ format: 'duskwire-job', version: 1, id: 'x' })],
    ['a broken archive', 'PK\u0003\u0004 and nothing more'],
  ])('is not %s', async (_, text) => {
    await expect(readJobFile(new Blob([text]))).rejects.toThrow(JobFileRefusal);
  });
});

describe('archives', () => {
  it('are read by another program', async () => {
    const file = join(folder, 'ours.zip');
    const blob = writeZip([{ name: 'a.txt', bytes: new TextEncoder().encode('alpha') }, { name: 'u/b.bin', bytes: png.slice() }]);
    writeFileSync(file, await bytesOf(blob));
    const told = python("import sys,zipfile; z=zipfile.ZipFile(sys.argv[1]); print(z.testzip(), [(i.filename, i.file_size) for i in z.infolist()], z.read('a.txt').decode())", file);
    expect(told.trim()).toBe("None [('a.txt', 5), ('u/b.bin', 29)] alpha");
  });

  it('from another program are read, deflated ones too', async () => {
    const file = join(folder, 'theirs.zip');
    python("import sys,zipfile; z=zipfile.ZipFile(sys.argv[1],'w',zipfile.ZIP_DEFLATED); z.writestr('long.txt','abc'*5000); z.writestr('dir/short.txt','x'); z.close()", file);
    const entries = await readZip(new Uint8Array(readFileSync(file)));
    expect(entries.map(({ name, bytes }) => [name, bytes.length])).toEqual([['long.txt', 15000], ['dir/short.txt', 1]]);
  });

  it.each([
    '../out.txt', '/etc/x', 'a/../../b', 'C:x', 'C:/x', 'a\\b', './a', 'a//b', 'a/b:stream', 'job.json\0.exe', 'nul', 'pictures/CON.jpg', 'Com1',
    'lpt9.txt', 'a.', 'a b', '\u202egpj.exe', 'ü.txt', '%2e%2e/x', 'a'.repeat(300),
  ])('with the name %j are refused', async (name) => {
    const archive = await bytesOf(writeZip([{ name, bytes: new Uint8Array(1) }]));
    await expect(readZip(archive)).rejects.toThrow(/^The file holds "[\x20-\x7e]+", a name that is no plain path inside it. Nothing was taken in.$/);
  });

  it.each([['job.json', 'job.json'], ['job.json', 'JOB.json'], ['pictures', 'Pictures/']])('with the names %s and %s are refused', async (one, other) => {
    const archive = await bytesOf(writeZip([one, other].map((name) => ({ name, bytes: new Uint8Array() }))));
    await expect(readZip(archive)).rejects.toThrow('comes twice');
  });

  it('with a link or a device are refused, with plain files and folders read', async () => {
    // As Unix writes it: who made the archive, and the mode of its one file.
    const archiveOf = async (name: string, mode: number): Promise<Uint8Array<ArrayBuffer>> => {
      const archive = await bytesOf(writeZip([{ name, bytes: new Uint8Array(name.endsWith('/') ? 0 : 1) }]));
      const view = new DataView(archive.buffer);
      const directory = view.getUint32(archive.length - 6, true);
      view.setUint8(directory + 5, 3);
      view.setUint16(directory + 40, mode, true);
      return archive;
    };
    for (const mode of [0o120777, 0o020666, 0o060666, 0o010644, 0o140644]) {
      await expect(readZip(await archiveOf('pictures/a', mode)), mode.toString(8)).rejects.toThrow('link or a device');
    }
    expect(await readZip(await archiveOf('pictures/a', 0o100644))).toHaveLength(1);
    expect(await readZip(await archiveOf('pictures/', 0o040755))).toHaveLength(0);
  });

  it('that say they unpack to more than any job are refused before they are unpacked', async () => {
    const archive = await bytesOf(writeZip(['a', 'b', 'c'].map((name) => ({ name, bytes: new Uint8Array(1) }))));
    const view = new DataView(archive.buffer);
    let at = view.getUint32(archive.length - 6, true);
    for (let entry = 0; entry < 3; entry += 1) {
      view.setUint32(at + 24, 200 * 2 ** 20, true);
      at += 47;
    }
    await expect(readZip(archive)).rejects.toThrow('more than any job');
  });

  it('are refused wherever they are cut', async () => {
    const archive = await bytesOf(writeZip([{ name: 'a', bytes: new TextEncoder().encode('some content') }]));
    for (let length = 0; length < archive.length; length += 1) {
      await expect(readZip(archive.slice(0, length)), `cut to ${length}`).rejects.toThrow(ZipError);
    }
  });

  it('with any damaged byte of content are refused', async () => {
    const archive = await bytesOf(writeZip([{ name: 'a', bytes: new TextEncoder().encode('some content') }]));
    for (let at = 31; at < 43; at += 1) {
      const damaged = archive.slice();
      damaged[at] = damaged[at]! ^ 4;
      await expect(readZip(damaged), `byte ${at}`).rejects.toThrow('checksum');
    }
  });

  it('that unpack to more than they say are refused', async () => {
    const file = join(folder, 'bomb.zip');
    python("import sys,zipfile; z=zipfile.ZipFile(sys.argv[1],'w',zipfile.ZIP_DEFLATED); z.writestr('a','0'*1000000); z.close()", file);
    const archive = new Uint8Array(readFileSync(file));
    const view = new DataView(archive.buffer, archive.byteOffset, archive.byteLength);
    const directory = view.getUint32(archive.length - 6, true);
    view.setUint32(directory + 24, 10, true);
    await expect(readZip(archive)).rejects.toThrow('longer than it says');
  });
});
