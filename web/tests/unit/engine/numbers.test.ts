// SPDX-License-Identifier: Apache-2.0
// The page's engine against the command: the whole report of `duskwire check --json` for every example, numbers to
// 1e-9 absolute. The command is build/release/duskwire, or what DUSKWIRE_PROGRAM names; ./test page builds it. Without
// it there is nothing to compare with, and the cases are reported as skipped.
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { resolve } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Engine } from '../../../src/engine/client';
import type { JobDocument } from '../../../src/job/document';
import { realEngine } from '../support/real-engine';

const root = resolve(import.meta.dirname, '../../../..');
const named = process.env.DUSKWIRE_PROGRAM;
const program = resolve(root, named ?? 'build/release/duskwire');
const examples = readdirSync(resolve(root, 'examples')).filter((name) => name.endsWith('.json'));
const tolerance = 1e-9;
let engine: Engine;

/** Where the two differ, and how many numbers were compared. */
function compare(a: unknown, b: unknown, at = ''): { readonly differences: string[]; readonly numbers: number } {
  if (typeof a === 'number' && typeof b === 'number') {
    return { differences: Math.abs(a - b) <= tolerance ? [] : [`${at}: ${a} and ${b}`], numbers: 1 };
  }
  if (typeof a === 'object' && typeof b === 'object' && a !== null && b !== null) {
    const keys = new Set([...Object.keys(a), ...Object.keys(b)]);
    const parts = [...keys].map((key) => compare((a as Record<string, unknown>)[key], (b as Record<string, unknown>)[key], `${at}/${key}`));
    return { differences: parts.flatMap(({ differences }) => differences), numbers: parts.reduce((sum, { numbers }) => sum + numbers, 0) };
  }
  return { differences: a === b ? [] : [`${at}: ${JSON.stringify(a)} and ${JSON.stringify(b)}`], numbers: 0 };
}

beforeAll(async () => {
  engine = await realEngine();
});

describe('the comparison itself', () => {
  it('sees a number that is off by more than 1e-9, a missing part and another word', () => {
    expect(compare({ a: [1, 2] }, { a: [1, 2 + 2e-9] }).differences).toHaveLength(1);
    expect(compare({ a: 1, b: 2 }, { a: 1 }).differences).toHaveLength(1);
    expect(compare({ a: 'x' }, { a: 'y' }).differences).toHaveLength(1);
    expect(compare({ a: [1] }, { a: [1 + 1e-10] })).toEqual({ differences: [], numbers: 1 });
  });
});

describe.skipIf(named === undefined && !existsSync(program))('the page and the command agree on', () => {
  it.each(examples)('%s', { timeout: 60_000 }, async (name) => {
    const file = resolve(root, 'examples', name);
    const { stdout, stderr, status } = spawnSync(program, ['check', '--json', file], { encoding: 'utf8', maxBuffer: 64e6 });
    expect(status === 0 || status === 1, `exit status ${status}: ${stderr}`).toBe(true);
    const job = JSON.parse(readFileSync(file, 'utf8')) as JobDocument;
    const { value } = await engine.check(job, { cures: true });
    const { differences, numbers } = compare(value.report, JSON.parse(stdout));
    expect(differences).toEqual([]);
    expect(numbers).toBeGreaterThan(100);
  });
});
