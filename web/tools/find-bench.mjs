#!/usr/bin/env node
// SPDX-License-Identifier: Apache-2.0
// How long the page's engine takes to find a fault, alone under Node: sixty lamps on four runs, a cut on one of them,
// readings as they come in. The full ranking, the same with the choice of the next reading, and a number that is
// compared while it is typed, against the bars that they are held to. Needs build/wasm (tools/build_wasm.sh).
//   node tools/find-bench.mjs [--rounds 21] [--lamps 60] [--engine ../build/wasm/duskwire.mjs]
import { readFileSync } from 'node:fs';
import { cpus, loadavg } from 'node:os';
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { parseArgs } from 'node:util';

const root = resolve(import.meta.dirname, '../..');
const { values } = parseArgs({
  options: { rounds: { type: 'string', default: '21' }, lamps: { type: 'string', default: '60' }, engine: { type: 'string', default: resolve(root, 'build/wasm/duskwire.mjs') } },
});
const rounds = Number(values.rounds);
const module = resolve(values.engine);
const { default: createEngine } = await import(pathToFileURL(module));
const engine = await createEngine({ wasmBinary: readFileSync(module.replace(/\.mjs$/, '.wasm')) });

// Four runs, each a chain of joints 3 m apart with a lamp of 4 VA at each.
const runs = ['A', 'B', 'C', 'D'];
const each = Math.ceil(Number(values.lamps) / runs.length);
const stock = JSON.parse(readFileSync(resolve(root, 'data/catalogue/stock.json'), 'utf8'));
const cable = stock.cables.find(({ id }) => id === '12awg-2');
const places = runs.flatMap((run) => Array.from({ length: each }, (_, k) => ({ run, k, id: `${run}${k + 1}` })));
const job = {
  format: 'duskwire-job', version: 1, id: 'find-bench', title: 'Sixty lamps', created: '2026-03-02',
  site: { mains_v: 120, mains_hz: 60, ruleset: 'us', units: 'metric', currency: 'USD' },
  catalogue: {
    currency: 'USD', cables: [cable],
    luminaires: [{ id: 'lamp', title: 'Lamp of 4 VA', kind: 'path', lamp: 'regulated_led', power_w: 3, power_va: 4, window_min_v: 10, window_max_v: 15, v_regulation_min: 9, v_cut_off: 7, lead_area_mm2: 2.08 }],
    transformers: [{ id: 'unit', title: 'Transformer of 600 VA', rating_va: 600, output_count: 4, output_limit_a: 25, taps_v: [12, 13, 14, 15], r_own_ohm: 0.02, r_shared_ohm: 0.01 }],
    connectors: [{ id: 'hub', title: 'Hub', sealed: true, mechanically_held: true, contact_ohm: 0.002, fills: [{ area_min_mm2: 0.5, area_max_mm2: 6, count_min: 1, count_max: 10 }] }],
  },
  luminaires: places.map(({ id }) => ({ id, item: 'lamp', joint: `J${id}`, lead_length_m: 1 })),
  transformers: [{ id: 'T', item: 'unit', outputs: runs.map((run) => ({ id: `T-${run}`, tap_v: 13 })) }],
  joints: places.map(({ id }) => ({ id: `J${id}`, kind: 'hub', connector: 'hub' })),
  cables: places.map(({ run, k, id }) => ({ id: `C${id}`, item: '12awg-2', from: k === 0 ? `T-${run}` : `J${run}${k}`, to: `J${id}`, length_m: k === 0 ? 12 : 3 })),
  visits: [{ date: '2026-03-02', kind: 'service', readings: [] }],
};

// Open between B7 and B8: what is read there, in the order in which a call would read it.
const volts = (place, value) => ({ place, quantity: 'voltage', value, unit: 'V' });
const readings = [volts('T-B', 12.93), { place: 'T-B', quantity: 'current', value: 2.2, unit: 'A' }, volts('B4', 12.5), volts('B12', 0), volts('A15', 11.9), volts('B8', 0)];

const cpuMs = (work) => {
  const from = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(from);
  return (user + system) / 1000;
};
const median = (list) => [...list].sort((a, b) => a - b)[Math.floor(list.length / 2)];
const ask = (verb, request) => JSON.parse(engine.call(verb, [JSON.stringify(job), JSON.stringify(request)]));

const answers = {
  ranking: () => ask('locate', { ranking_alone: true }),
  whole: () => ask('locate', {}),
  typed: () => ask('readings', { readings: [volts('A3', 12)], readings_alone: true }),
};

// In turn, so that what else the machine does falls on all of them alike.
function timesOf() {
  const times = Object.fromEntries(Object.keys(answers).map((name) => [name, []]));
  for (const answer of Object.values(answers)) answer();
  for (let round = 0; round < rounds; round += 1) for (const [name, answer] of Object.entries(answers)) times[name].push(cpuMs(answer));
  return times;
}

const barMs = { ranking: 150, choice: 500 };
const ratio = (found, bar) => `${found.toFixed(0)} of ${bar} ms (${(found / bar).toFixed(2)})`;
console.log(`${job.luminaires.length} lamps, WebAssembly under Node ${process.version}, processor ms, median of ${rounds}, least in brackets after it; load ${loadavg()[0].toFixed(1)} on ${cpus().length} cores`);
for (const count of [2, 4, readings.length]) {
  job.visits[0].readings = readings.slice(0, count);
  const { ranking, whole, typed } = timesOf();
  const choice = whole.map((one, round) => one - ranking[round]);
  const { headline } = ask('locate', {});
  console.log(`${count} readings: ranking ${ratio(median(ranking), barMs.ranking)} [${Math.min(...ranking).toFixed(0)}], next reading ${ratio(median(choice), barMs.choice)}, all ${median(whole).toFixed(0)} [${Math.min(...whole).toFixed(0)}], a typed number ${median(typed).toFixed(1)} [${Math.min(...typed).toFixed(1)}]   ${headline}`);
}
