// SPDX-License-Identifier: Apache-2.0
// Readings that are written one after the other are weighed together, once typing has paused; a number that is typed
// is compared at once.
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import type { Estimates } from '../../../src/engine/estimates';
import type { ComparedReadings, Located } from '../../../src/engine/locate';
import type { JobDocument } from '../../../src/job/document';
import type { LoggedVisit } from '../../../src/job/visit';
import { LocateAnswer } from '../../../src/session/locate.svelte';
import { garden } from '../support/garden';

const visit = (readings: number): LoggedVisit => ({ id: 'v', date: '2026-03-02', kind: 'service', log: [], readings: Array.from({ length: readings }, () => ({ place: 'F1', quantity: 'voltage' as const, value: 12, unit: 'V' as const })) });
const withReadings = (readings: number): JobDocument => ({ ...garden(), visits: [visit(readings)] });
const nothing = { compared: [], unused: [] } as unknown as Located & ComparedReadings;

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

it('weighs what was written once typing has paused', async () => {
  const locate = vi.fn(() => Promise.resolve(nothing));
  const readings = vi.fn(() => Promise.resolve(nothing));
  const answer = new LocateAnswer(withReadings(0), { locate, readings } as unknown as Estimates);
  answer.look('v');
  answer.watch();
  await vi.advanceTimersByTimeAsync(0);
  expect(locate).toHaveBeenCalledTimes(1);
  for (let count = 1; count <= 3; count += 1) {
    answer.changed(withReadings(count));
    await vi.advanceTimersByTimeAsync(200);
    answer.type({ place: 'F1', quantity: 'voltage', value: 11 });
    await vi.advanceTimersByTimeAsync(200);
  }
  expect(answer.pending).toBe(true);
  expect(locate).toHaveBeenCalledTimes(1);
  expect(readings).toHaveBeenCalledTimes(3);
  await vi.advanceTimersByTimeAsync(1000);
  expect(locate).toHaveBeenCalledTimes(2);
  expect(answer.pending).toBe(false);
});
