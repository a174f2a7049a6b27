// SPDX-License-Identifier: Apache-2.0
import { expect, it } from 'vitest';
import type { JobDocument } from '../../../src/job/document';
import { nearestOf, unwiredLamps, walkedM } from '../../../src/visit/walk.svelte';
import { garden } from '../support/garden';

it('knows which lamps on the plan hang on nothing', () => {
  const job: JobDocument = {
    ...garden(),
    luminaires: [
      { id: 'F1', item: 'x', position: [0, 0, 0] }, { id: 'F2', item: 'x', position: [1, 0, 0], joint: 'S1' },
      { id: 'F3', item: 'x', position: [2, 0, 0] }, { id: 'F4', item: 'x' },
    ],
    cables: [{ id: 'C1', item: 'c', from: 'T1-A', to: 'F3' }],
  };
  expect(unwiredLamps(job)).toEqual(['F1']);
});

it('begins a branch where the way walked is nearest', () => {
  const run = { id: 'R1', output: 'T1-A', ways: [{ path: [[0, 0], [10, 0], [10, 5]] as const }] };
  expect(nearestOf(run, [4, 3])).toEqual([4, 0]);
  expect(nearestOf(run, [14, 2])).toEqual([10, 2]);
  expect(walkedM(run)).toBe(15);
});
