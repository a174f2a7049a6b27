// SPDX-License-Identifier: Apache-2.0
// The drawing of a run, on the real engine: nothing is left out, nothing is invented.
import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Report } from '../../../src/engine/report';
import type { JobDocument } from '../../../src/job/document';
import { marginWords } from '../../../src/panes/margin-words';
import { profileOf, ticks } from '../../../src/panes/profile';
import { realEngine } from '../support/real-engine';

const job = JSON.parse(readFileSync('../examples/ostrey-garden.json', 'utf8')) as JobDocument;
let report: Report;

beforeAll(async () => {
  const { value } = await (await realEngine()).check(job, { cures: false });
  report = value.report!;
});

const profiles = () => report.outputs.map(({ id }) => profileOf(job, report, id));

describe('the profile of a run', () => {
  it('draws every lamp and every cable once', () => {
    expect(profiles().flatMap(({ lamps }) => lamps.map(({ id }) => id)).sort()).toEqual(report.lamps.map(({ id }) => id).sort());
    expect(profiles().flatMap(({ cables }) => cables.map(({ id }) => id)).sort()).toEqual(report.cables.map(({ id }) => id).sort());
  });

  it('starts each run at the terminals of its output', () => {
    for (const profile of profiles()) {
      const terminal = report.outputs.find(({ id }) => id === profile.output)!.terminal_v;
      const first = profile.cables.filter(({ near }) => near.distance_m === 0);
      expect(first.length).toBeGreaterThan(0);
      for (const { near } of first) expect(near.voltage_v).toBeCloseTo(terminal, 9);
    }
  });

  it('joins cables without a step: each begins where the one before ended', () => {
    for (const { cables } of profiles()) {
      const ends = new Set(cables.map(({ far }) => `${far.distance_m.toFixed(6)} ${far.voltage_v.toFixed(9)}`));
      for (const { near } of cables) {
        if (near.distance_m > 0) expect(ends).toContain(`${near.distance_m.toFixed(6)} ${near.voltage_v.toFixed(9)}`);
      }
    }
  });

  it('places a lamp no nearer than the end that it hangs on, and a lead loses volts', () => {
    const leads = profiles().flatMap((profile) => profile.leads);
    // The others have no joint: their cable ends at the lamp itself.
    expect(leads.length).toBe(job.luminaires!.filter(({ joint }) => joint !== undefined).length);
    expect(leads.length).toBeGreaterThan(0);
    for (const { near, far } of leads) {
      expect(far.distance_m).toBeGreaterThanOrEqual(near.distance_m - 1e-9);
      expect(far.voltage_v).toBeLessThanOrEqual(near.voltage_v + 1e-9);
    }
  });

  it('shows the window that suits all lamps, and none where there is none', () => {
    const [lamp] = report.lamps;
    const window = (min: number, max: number, id: string) => ({ ...lamp!, id, window_min_v: min, window_max_v: max });
    const of = (lamps: Report['lamps']) => profileOf(job, { ...report, lamps }, lamp!.output).window;
    expect(of([window(9, 15, 'a'), window(10.8, 14, 'b')])).toEqual({ min_v: 10.8, max_v: 14 });
    expect(of([window(9, 10, 'a'), window(11, 12, 'b')])).toBeUndefined();
  });
});

describe('axis and words', () => {
  it('steps by 1, 2 or 5', () => {
    expect(ticks(9.6, 15.4, 5)).toEqual([10, 12, 14]);
    expect(ticks(0, 100, 8)).toEqual([0, 20, 40, 60, 80, 100]);
    expect(ticks(3, 3, 5)).toEqual([3]);
  });

  it('says how far the wiring is from collapse', () => {
    const words = marginWords(report.margin, (id) => `lamp ${id}`);
    expect(words).toMatch(/all loads may grow 1\.40 times, or all lengths 1\.44 times, before lamp F5 leaves its regulation/);
    expect(marginWords({ ...report.margin, load_factor: 0 }, (id) => id)).toMatch(/^No margin to collapse: F5 has left/);
    expect(marginWords({ ...report.margin, load_factor: 10, load_beyond_cap: true }, (id) => id)).toMatch(/10\.00 times or more/);
  });
});
