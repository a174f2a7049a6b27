#!/usr/bin/env node
// SPDX-License-Identifier: Apache-2.0
// How long the page's engine takes for a night at preview size, alone under Node: the demo garden with its 40 lamps on
// half a million elements; one lamp moved from picture to picture, one dimmed, the exposure changed. The photograph is
// a pattern: time does not hang on what it shows. Needs build/wasm (tools/build_wasm.sh).
//   node tools/night-bench.mjs [--rounds 40] [--engine ../build/wasm/duskwire.mjs]
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { parseArgs } from 'node:util';

const { values } = parseArgs({
  options: { rounds: { type: 'string', default: '40' }, engine: { type: 'string', default: resolve(import.meta.dirname, '../../build/wasm/duskwire.mjs') } },
});
const rounds = Number(values.rounds);
const module = resolve(values.engine);
const { default: createEngine } = await import(pathToFileURL(module));
const engine = await createEngine({ wasmBinary: readFileSync(module.replace(/\.mjs$/, '.wasm')) });

const job = JSON.parse(readFileSync(resolve(import.meta.dirname, '../../examples/ostrey-garden.json'), 'utf8'));
const view = job.views[0];
const width = Math.floor(Math.sqrt((500_000 * view.width_px) / view.height_px));
const height = Math.floor(500_000 / width);
const rgba = new Uint8ClampedArray(4 * width * height).map((_, i) => (i % 4 === 3 ? 255 : 90 + ((i * 7919) % 80)));
engine.givePhotograph(rgba, width, height);

// As the page asks: the whole document once, then only its parts that differ.
function picture(wish = {}, parts) {
  const given = [JSON.stringify(parts ?? job), JSON.stringify({ view: view.id, ...wish })];
  const start = performance.now();
  const cpu = process.cpuUsage();
  const facts = JSON.parse(engine.call(parts ? 'night_changed' : 'night_picture', given));
  const spent = process.cpuUsage(cpu);
  return { ms: performance.now() - start, cpuMs: (spent.user + spent.system) / 1000, recomputed: facts.recomputed.length };
}

const quantile = (list, share) => [...list].sort((a, b) => a - b)[Math.min(list.length - 1, Math.floor(list.length * share))];
function tell(what, pictures) {
  const figures = (key) => `median ${quantile(pictures.map((one) => one[key]), 0.5).toFixed(1)}, p95 ${quantile(pictures.map((one) => one[key]), 0.95).toFixed(1)}`;
  console.log(`${what.padEnd(16)} ms: ${figures('ms')}   processor ms: ${figures('cpuMs')}   layers computed: ${pictures[0].recomputed}`);
}

console.log(`${width} x ${height} elements, ${job.luminaires.length} lamps`);
tell('first picture', [picture()]);
const lamp = job.luminaires[0];
const [x, y, z] = lamp.position;
const moved = Array.from({ length: rounds }, (_, round) => {
  lamp.position = [x + 0.02 * round, y - 0.01 * round, z];
  return picture({}, [['/luminaires/0', lamp]]);
});
tell('one lamp moved', moved.slice(3));
const dimmed = Array.from({ length: rounds }, (_, round) => picture({ lamps: [{ id: lamp.id, share: 1 - round / (2 * rounds) }] }, []));
tell('one lamp dimmed', dimmed.slice(3));
const exposed = Array.from({ length: rounds }, (_, round) => picture({ exposure_stops: round / rounds }, []));
tell('exposure moved', exposed.slice(3));
