// SPDX-License-Identifier: Apache-2.0
// The types of the engine's answers against docs/results.md, table by table.
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { readInterfaces } from '../support/interfaces';

const page = readFileSync('../docs/results.md', 'utf8');
const report = readInterfaces('src/engine/report.ts').interfaces;
const answers = readInterfaces('src/engine/answers.ts').interfaces;
const route = readInterfaces('src/engine/route.ts').interfaces;

function keysOf(table: string): string[] {
  const start = page.indexOf(`<!-- table result: ${table} -->`);
  expect(start, `docs/results.md has a table "${table}"`).toBeGreaterThan(0);
  const rows = page.slice(start, page.indexOf('<!-- end -->', start)).matchAll(/^\| `(\w+)`/gm);
  return [...rows].map((row) => row[1]!);
}

it.each([
  ['report', 'Report'], ['lamp', 'LampReport'], ['cable', 'CableReport'], ['output', 'OutputReport'],
  ['transformer', 'TransformerReport'], ['corner', 'CornerReport'], ['short', 'ShortReport'], ['margin', 'MarginReport'],
  ['finding', 'Finding'], ['provenance', 'Provenance'], ['cure', 'Cure'], ['advice', 'Advice'], ['tap advice', 'TapAdvice'],
  ['tap verdict', 'TapVerdict'], ['transformer advice', 'TransformerAdvice'], ['transformer need', 'TransformerNeed'],
  ['transformer choice', 'TransformerChoice'], ['protection advice', 'ProtectionAdvice'], ['answer', 'Answer'], ['tried', 'Tried'],
])('%s is typed as %s', (table, name) => {
  expect([...(report.get(name) ?? answers.get(name))!.keys()].sort()).toEqual(keysOf(table).sort());
});

// Beside their tables an answer has the planned job and a progress says whether there is more to be found.
it.each([
  ['route', 'RouteAnswer', 'job'], ['route figures', 'RouteFigures'], ['installed cost', 'InstalledCost'], ['route run', 'RouteRun'],
  ['route obstacle', 'RouteObstacle'], ['route progress', 'RouteProgress', 'more'],
])('%s is typed as %s', (table, name, ...beside) => {
  expect([...route.get(name)!.keys()].sort()).toEqual([...keysOf(table), ...beside].sort());
});
