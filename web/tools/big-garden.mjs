// SPDX-License-Identifier: Apache-2.0
// A made-up garden of any size, to measure and to test with: runs of ten lamps in a row, four runs on a transformer.
//   node tools/big-garden.mjs 1000 > garden.json
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';

const stock = JSON.parse(readFileSync(resolve(import.meta.dirname, '../../data/catalogue/stock.json'), 'utf8'));
const pick = (section, wanted) => {
  const item = stock[section].find(wanted);
  if (!item) throw new Error(`The stock has no such thing among its ${section}.`);
  return item;
};
const lamp = pick('luminaires', ({ kind, power_w }) => kind === 'path' && power_w === 3);
const cable = pick('cables', ({ gauge_awg }) => gauge_awg === 12);
const transformer = pick('transformers', ({ rating_va }) => rating_va === 300);
const connector = pick('connectors', ({ sealed, mechanically_held, fills }) => sealed && mechanically_held && (fills ?? []).some(({ count_max, area_max_mm2 }) => count_max >= 3 && area_max_mm2 >= 3.3));

const perRun = 10;
const runsPerTransformer = 4;
const acrossCount = 4;

export function bigGarden(count) {
  const job = {
    format: 'duskwire-job', version: 1, id: `garden-of-${count}`, title: `Garden of ${count} lamps`, created: '2026-03-02',
    site: { mains_v: 120, mains_hz: 60, ruleset: 'us', units: 'us', currency: 'USD' },
    catalogue: { currency: 'USD', luminaires: [lamp], transformers: [transformer], cables: [cable], connectors: [connector] },
    plan: { areas: [{ id: 'lawn', kind: 'lawn', outline: outline(count) }] },
    luminaires: [], transformers: [], cables: [], joints: [],
  };
  for (let index = 0; index < count; index += 1) addLamp(job, index);
  return job;
}

function outline(count) {
  const units = Math.ceil(count / perRun / runsPerTransformer);
  const right = Math.min(units, acrossCount) * 30;
  const top = Math.ceil(units / acrossCount) * runsPerTransformer * 4 + 4;
  return [[-6, -6], [right, -6], [right, top], [-6, top]];
}

function addLamp(job, index) {
  const run = Math.floor(index / perRun);
  const place = index % perRun;
  const unit = Math.floor(run / runsPerTransformer);
  const originX = (unit % acrossCount) * 30;
  const originY = (Math.floor(unit / acrossCount) * runsPerTransformer + (run % runsPerTransformer)) * 4;
  if (place === 0 && run % runsPerTransformer === 0) {
    const outputs = Array.from({ length: transformer.output_count ?? 1 }, (_, one) => ({ id: `T${unit}-${one}`, tap_v: 13 }));
    job.transformers.push({ id: `T${unit}`, name: `Transformer ${unit + 1}`, item: transformer.id, position: [originX - 2, originY + 6], mounting_height_m: 0.5, outputs });
  }
  const output = job.transformers[unit].outputs[run % job.transformers[unit].outputs.length];
  const x = originX + place * 2.2;
  const y = originY + (place % 2);
  job.joints.push({ id: `S${index}`, kind: place === perRun - 1 ? 'end_of_run' : 'in_line', position: [x, y], connector: connector.id });
  const from = place === 0 ? output.id : `S${index - 1}`;
  const start = place === 0 ? job.transformers[unit].position : job.joints[index - 1].position;
  job.cables.push({ id: `C${index}`, item: cable.id, from, to: `S${index}`, path: [start, [x, y]], depth_m: 0.2 });
  job.luminaires.push({ id: `F${index}`, name: `Light ${index + 1}`, item: lamp.id, position: [x, y, 0.5], joint: `S${index}` });
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  process.stdout.write(`${JSON.stringify(bigGarden(Number(process.argv[2] ?? 60)), null, 1)}\n`);
}
