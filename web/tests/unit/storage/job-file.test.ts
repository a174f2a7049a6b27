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
    const blob = writeZip([{ name: 'a.txt', bytes: new TextEncoder().encode('alpha') }, { name: 'ü/b.bin', bytes: png.slice() }]);
    writeFileSync(file, await bytesOf(blob));
    const told = python("import sys,zipfile; z=zipfile.ZipFile(sys.argv[1]); print(z.testzip(), [(i.filename, i.file_size) for i in z.infolist()], z.read('a.txt').decode())", file);
    expect(told.trim()).toBe("None [('a.txt', 5), ('ü/b.bin', 29)] alpha");
  });

  it('from another program are read, deflated ones too', async () => {
    const file = join(folder, 'theirs.zip');
    python("import sys,zipfile; z=zipfile.ZipFile(sys.argv[1],'w',zipfile.ZIP_DEFLATED); z.writestr('long.txt','abc'*5000); z.writestr('dir/short.txt','x'); z.close()", file);
    const entries = await readZip(new Uint8Array(readFileSync(file)));
    expect(entries.map(({ name, bytes }) => [name, bytes.length])).toEqual([['long.txt', 15000], ['dir/short.txt', 1]]);
  });

  it.each(['../out.txt', '/etc/x', 'a/../../b', 'C:x', 'a\\b', './a'])('with the name %s are refused', async (name) => {
    const archive = await bytesOf(writeZip([{ name, bytes: new Uint8Array(1) }]));
    await expect(readZip(archive)).rejects.toThrow(ZipError);
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
