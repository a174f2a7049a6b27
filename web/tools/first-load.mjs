#!/usr/bin/env node
// SPDX-License-Identifier: Apache-2.0
// What a first visit brings over the wire: every file of web/dist that the page, its letters and its engine are made
// of, as a host with gzip sends it. Exit status 1 where it is more than the limit.
//   node tools/first-load.mjs [--limit-kb 1700]
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { parseArgs } from 'node:util';
import { gzipSync } from 'node:zlib';

const dist = resolve(import.meta.dirname, '../dist');

// The demo garden and its photograph are fetched when they are asked for, letters beyond Latin when a text needs them.
const onDemand = (name) => name.endsWith('.json') || name.endsWith('.jpg') || name.includes('latin-ext');

function sentBytes(name) {
  const content = readFileSync(join(dist, name));
  return name.endsWith('.woff2') ? content.length : gzipSync(content).length;
}

export function firstLoad() {
  const assets = readdirSync(join(dist, 'assets')).filter((name) => !onDemand(name));
  return ['index.html', ...assets.map((name) => `assets/${name}`)].map((name) => ({ name, bytes: sentBytes(name) }));
}

export const firstLoadBytes = () => firstLoad().reduce((sum, { bytes }) => sum + bytes, 0);

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  const { values } = parseArgs({ options: { 'limit-kb': { type: 'string', default: '1700' } } });
  const files = firstLoad().sort((a, b) => b.bytes - a.bytes);
  for (const { name, bytes } of files) console.log(`${(bytes / 1000).toFixed(1).padStart(8)} kB  ${name}`);
  const total = firstLoadBytes() / 1000;
  const limit = Number(values['limit-kb']);
  console.log(`${total.toFixed(1).padStart(8)} kB  in all, compressed; the limit is ${limit} kB`);
  if (!files.some(({ name }) => name.endsWith('.wasm'))) throw new Error('The engine is not among the files.');
  process.exit(total < limit ? 0 : 1);
}
