// SPDX-License-Identifier: Apache-2.0
// The rows of tests/reference/fault_table.json as visits of jobs that a phone has: the garden of each row with its
// readings, which a test of the command holds to be those of the faulted network. And what the page calls each fault.
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { eightLamps } from './eight-lamps.mjs';

const table = (name) => JSON.parse(readFileSync(resolve(import.meta.dirname, `../../../tests/reference/${name}.json`), 'utf8'));

// As tests/cli/fault_table_test.cpp builds them: a second output feeds two lamps more, and one thing differs.
function gardenOf(plan) {
  const job = eightLamps({ loop: plan === 'loop' });
  const [transformer] = job.transformers;
  const cable = (id, from, to, length_m) => ({ id, item: '12awg', from, to, length_m });
  const changed = {
    lead: (lamp) => (lamp.id === 'F5' ? { ...lamp, lead_length_m: 8 } : lamp),
    long: (one) => (one.id === 'C1' ? { ...one, length_m: 60 } : one),
  };
  return {
    ...job, id: `garden-${plan.replace(' ', '-')}`, title: `Garden, ${plan || 'as planned'}`,
    catalogue: { ...job.catalogue, transformers: job.catalogue.transformers.map((item) => ({ ...item, output_count: 2 })) },
    transformers: [{ ...transformer, outputs: [{ id: 'T-A', tap_v: plan === 'tap 15' ? 15 : 13, ...(plan === 'small breaker' && { limit_a: 5 }) }, { id: 'T-B', tap_v: 13 }] }],
    luminaires: [...job.luminaires, ...['1', '2'].map((k) => ({ id: `G${k}`, item: 'four', joint: `H${k}`, lead_length_m: 0 }))].map(plan === 'lead' ? changed.lead : (one) => one),
    cables: [...job.cables, cable('D1', 'T-B', 'H1', 18), cable('D2', 'H1', 'H2', 4.5)].map(plan === 'long' ? changed.long : (one) => one),
    joints: [...job.joints, ...['H1', 'H2'].map((id) => ({ id, kind: 'in_line', connector: 'hub' }))],
  };
}

// A line of the table of readings: place, quantity, value, unit, seen, load, clamped.
function readingOf(line) {
  const [place, quantity, value, unit, seen, load, clamped] = line.split(',');
  return { place, quantity, ...(value && { value: Number(value), unit }), ...(seen && { seen }), ...(load && { load }), ...(clamped && { clamped }) };
}

// As the page keeps it: what was told and each reading as an entry of the log.
function visitOf({ state, answers }, lines, number) {
  const visit = `visit-${number}`;
  const entry = (body, at) => ({ ...body, id: `${visit}-${at}`, visit, device: 'phone', number: at, at: `2031-05-20T10:${String(at).padStart(2, '0')}:00.000Z` });
  const readings = lines.map(readingOf);
  const facts = { date: '2031-05-20', kind: 'service', complaint: state, ...(answers && { answers }) };
  return { id: visit, ...facts, log: [entry({ kind: 'facts', facts }, 1), ...readings.map((reading, at) => entry({ kind: 'reading', reading }, at + 2))], ...(readings.length > 0 && { readings }) };
}

/** Jobs with their visits, one for each garden, and beside each visit the row of the table. */
export function faultTable() {
  const rows = table('fault_table');
  const read = table('fault_table_readings');
  const plans = [...new Set(rows.map(({ plan = '' }) => plan))];
  return plans.map((plan) => {
    const mine = rows.map((row, at) => ({ row, number: at, lines: read[at].readings })).filter(({ row }) => (row.plan ?? '') === plan);
    for (const { row, number } of mine) if (read[number].state !== row.state) throw new Error(`readings of ${read[number].state} beside ${row.state}`);
    return { job: { ...gardenOf(plan), visits: mine.map(({ row, lines, number }) => visitOf(row, lines, number)) }, rows: mine.map(({ row }) => row) };
  });
}

/** How the page names a kind of fault at a place. */
export const causeWords = {
  no_mains: () => /^No mains at the outlet/,
  control_off: () => /^Clock, photocell or relay keeps it off/,
  tripped: (id) => new RegExp(`^The protection of ${id} is open`),
  transformer_dead: (id) => new RegExp(`^Transformer ${id} gives nothing`),
  weak_output: (id) => new RegExp(`ohm.* too much in the winding or lug of ${id}\\b`),
  open: (id) => new RegExp(`^Open: no current passes (the lead of )?${id}\\b`),
  open_a: (id) => new RegExp(`^One conductor open in ${id}\\b`),
  dead_lamp: (id) => new RegExp(`Lamp ${id} is dead`),
  water: (id) => new RegExp(`^Water in ${id}\\b`),
  resistive: (id) => new RegExp(`ohm.* too much in ${id}\\b`),
  wrong_gauge: (id) => new RegExp(`^The run of ${id} has .* times the resistance planned`),
  added_load: (id) => new RegExp(`more load at ${id} than planned`),
  wrong_tap: (id) => new RegExp(`^${id} hangs on the`),
  low_mains: () => /^Mains at \d+ % of nominal/,
  short_span: (id) => new RegExp(`^Short of about .* in ${id}\\b`),
  short_lamp: (id) => new RegExp(`^Short of about .* inside ${id}\\b`),
  bridged_taps: (id) => new RegExp(`^Taps of ${id} bridged`),
  crossed: (id) => new RegExp(`^Conductors crossed in ${id}\\b`),
};
