// SPDX-License-Identifier: Apache-2.0
// Levels of light are computed for whoever looks, once the hand rests, the newest job alone.
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { EngineRefusal } from '../../../src/engine/client';
import type { Levels } from '../../../src/engine/levels';
import type { LightEngine } from '../../../src/engine/light-engine';
import type { JobDocument } from '../../../src/job/document';
import { LightAnswer } from '../../../src/session/light.svelte';
import { garden } from '../support/garden';

let asked: JobDocument[];
let bounces: boolean[];
let failure: Error | undefined;
let ended: boolean;
const engine: LightEngine = {
  levels(document, bounce) {
    asked.push(document);
    bounces.push(bounce);
    return failure ? Promise.reject(failure) : Promise.resolve({ targets: document.title, places: [{ id: 'walk' }] } as unknown as Levels);
  },
  sets: () => Promise.resolve([]),
  choose: () => Promise.reject(new Error('not asked here')),
  end: () => (ended = true),
};

beforeEach(() => {
  vi.useFakeTimers();
  asked = [];
  bounces = [];
  failure = undefined;
  ended = false;
});
afterEach(() => void vi.useRealTimers());

const rest = (): Promise<unknown> => vi.advanceTimersByTimeAsync(250);

describe('the levels of an open job', () => {
  it('are not computed while nobody looks', async () => {
    const light = new LightAnswer(garden('a'), engine);
    light.changed(garden('b'));
    await rest();
    expect(asked).toEqual([]);
  });

  it('come for who looks, and again for the job as it is after a drag', async () => {
    const light = new LightAnswer(garden('a'), engine);
    light.watch();
    await rest();
    expect(light.levels?.targets).toBe('a');
    for (const title of ['b', 'c', 'd']) light.changed(garden(title));
    expect(light.pending).toBe(true);
    await rest();
    expect(asked.map(({ title }) => title)).toEqual(['a', 'd']);
    expect([light.levels?.targets, light.pending]).toEqual(['d', false]);
  });

  it('are kept for the next look while the job is the same', async () => {
    const light = new LightAnswer(garden('a'), engine);
    const away = light.watch();
    await rest();
    away();
    light.watch();
    await rest();
    expect(asked).toHaveLength(1);
  });

  it('come anew with the light that bounced, and stay so for the next change', async () => {
    const light = new LightAnswer(garden('a'), engine);
    light.bounce = true;
    light.bounce = false;
    light.watch();
    await rest();
    light.bounce = true;
    expect(light.pending).toBe(true);
    await rest();
    expect(light.pending).toBe(false);
    light.changed(garden('b'));
    await rest();
    expect(bounces).toEqual([false, true, true]);
  });

  it('say what is wrong, and nothing where they were put away', async () => {
    const light = new LightAnswer(garden('a'), engine);
    failure = new Error('The job cannot be read.');
    light.watch();
    await rest();
    expect(light.failure).toBe('The job cannot be read.');
    failure = new EngineRefusal('The levels were put away.', [], 'ended');
    light.changed(garden('b'));
    await rest();
    expect(light.failure).toBe('The job cannot be read.');
    light.stop();
    expect(ended).toBe(true);
  });
});
