// SPDX-License-Identifier: Apache-2.0
import { describe, expect, it } from 'vitest';
import type { JobDocument, Joint } from '../../../src/job/document';
import { lacksOf, moveToTapes, recordJoint, setConnector, tapedPlace, unrecorded } from '../../../src/job/edits/as-built';
import { JobStore } from '../../../src/job/store.svelte';
import { garden } from '../support/garden';

const whole: Joint = { id: 'S1', connector: 'hub', position: [3, 5], as_built: { fixed_point_1: 'a', fixed_point_2: 'b', offset_1_m: 5, offset_2_m: 5, depth_m: 0.3, pictures: ['x'], done: true } };
const job = (...joints: Joint[]): JobDocument => ({
  ...garden(), joints, plan: { fixed_points: [{ id: 'a', position: [0, 0] }, { id: 'b', position: [6, 0] }] },
  cables: [{ id: 'C', item: 'c', from: 'T-A', to: 'S1', path: [[0, 5], [3, 5]] }],
});

describe('the record of a joint', () => {
  it('is whole with connector, two tapes, depth, picture and done mark', () => {
    expect(lacksOf(whole)).toEqual([]);
    expect(lacksOf({ id: 'S1' })).toEqual(['connector', 'two tapes from two fixed points', 'depth', 'picture', 'done mark']);
    expect(lacksOf({ ...whole, as_built: { ...whole.as_built, fixed_point_2: 'a' } })).toEqual(['two tapes from two fixed points']);
  });

  it('keeps the trench open for buried joints alone', () => {
    expect(unrecorded(job(whole, { id: 'S2' }, { id: 'S3', buried: false })).map(({ joint }) => joint.id)).toEqual(['S2']);
  });

  it('is one step of undo for each thing noted, and keeps what is there', () => {
    const store = new JobStore(job({ id: 'S1', as_built: { depth_m: 0.2 } }));
    store.run(recordJoint(store.document.joints![0]!, { offset_1_m: 4 }, '2026-03-02T20:00'));
    expect(store.document.joints![0]!.as_built).toEqual({ depth_m: 0.2, offset_1_m: 4, recorded: '2026-03-02T20:00' });
    store.run(recordJoint(store.document.joints![0]!, { depth_m: undefined }, '2026-03-02T20:01'));
    expect(store.document.joints![0]!.as_built).not.toHaveProperty('depth_m');
    store.run(setConnector(store.document.joints![0]!, 'hub'));
    store.undo();
    store.undo();
    expect(store.document.joints![0]!.as_built?.depth_m).toBe(0.2);
  });

  // A 3-4-5 triangle, by hand.
  it('places the joint where the tapes cross, on the side where the plan has it', () => {
    const taped = tapedPlace(job(whole), whole)!;
    expect(taped.point[0]).toBeCloseTo(3, 9);
    expect(taped.point[1]).toBeCloseTo(4, 9);
    expect(taped.offM).toBeCloseTo(1, 9);
    expect(tapedPlace(job(whole), { ...whole, position: [3, -9] })!.point[1]).toBeCloseTo(-4, 9);
    expect(tapedPlace(job(whole), { ...whole, as_built: { ...whole.as_built, offset_1_m: 1, offset_2_m: 1 } })).toBeUndefined();
  });

  it('moves it there, and its cables with it', () => {
    const store = new JobStore(job(whole));
    store.run(moveToTapes(store.document, whole, tapedPlace(store.document, whole)!.point));
    expect(store.document.joints![0]!.position![1]).toBeCloseTo(4, 9);
    expect(store.document.cables![0]!.path!.at(-1)![1]).toBeCloseTo(4, 9);
  });
});
