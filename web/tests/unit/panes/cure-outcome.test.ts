// SPDX-License-Identifier: Apache-2.0
// Every computed cure of every finding of the examples, done on the real engine: the finding goes or its number moves.
import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Engine } from '../../../src/engine/client';
import type { Report } from '../../../src/engine/report';
import type { JobDocument } from '../../../src/job/document';
import { findThing } from '../../../src/job/lookup';
import { outcomeOf } from '../../../src/panes/cure-outcome';
import { thingAt } from '../../../src/session/finding-place';
import { realEngine } from '../support/real-engine';

const examples = ['ostrey-garden', 'ostrey-garden-sound', 'small-garden'];
const jobOf = (name: string) => JSON.parse(readFileSync(`../examples/${name}.json`, 'utf8')) as JobDocument;
let engine: Engine;

beforeAll(async () => {
  engine = await realEngine();
});

const check = async (job: JobDocument): Promise<Report> => (await engine.check(job, { cures: true })).value.report!;

describe.each(examples)('the findings of %s', (name) => {
  it('point at things of the plan', async () => {
    const job = jobOf(name);
    const { findings } = await check(job);
    // A finding about the whole job has no subject and no place.
    for (const finding of findings) expect(thingAt(job, finding)?.value.id ?? '', finding.message).toBe(finding.subject);
  });

  it('are cured by each of their cures', { timeout: 60_000 }, async () => {
    const job = jobOf(name);
    const { findings } = await check(job);
    for (const finding of findings) {
      for (const { text, changes } of finding.cures) {
        const after = await engine.applyChanges(job, changes);
        const outcome = outcomeOf(finding, (await engine.check(after, { cures: false })).value.report!);
        expect(outcome.gone || /before, .* now/.test(outcome.words), `${text}: ${outcome.words}`).toBe(true);
      }
    }
  });
});

describe('what a cure has brought about', () => {
  it('is said with both numbers where the finding stays', async () => {
    const report = await check(jobOf('ostrey-garden'));
    const finding = report.findings.find(({ id }) => id === 'lamp-window')!;
    const moved = { ...report, findings: [{ ...finding, measured: 9.9 }] };
    expect(finding.cures.length).toBeGreaterThan(0);
    expect(outcomeOf(finding, moved)).toEqual({ gone: false, words: `The finding is still there: ${Number(finding.measured!.toPrecision(4))} V before, 9.9 V now; the limit is 10 V.` });
    expect(outcomeOf(finding, report).words).toBe('The finding is still there.');
    expect(outcomeOf(finding, { ...report, findings: [] }).gone).toBe(true);
  });
});

describe('a pointer', () => {
  const job = jobOf('ostrey-garden');

  it('leads to the thing that it passes through, an output rather than its transformer', () => {
    expect(thingAt(job, { pointer: '/transformers/0/outputs/0/tap_v' })?.kind).toBe('output');
    expect(thingAt(job, { pointer: '/luminaires/2/item' })?.value).toBe(job.luminaires![2]);
  });

  it('leaves the subject to decide where it leads nowhere, and finds nothing where there is nothing', () => {
    expect(thingAt(job, { pointer: '/site', subject: 'F5' })).toEqual(findThing(job, 'F5'));
    expect(thingAt(job, { pointer: '/luminaires/9999' })).toBeUndefined();
  });
});
