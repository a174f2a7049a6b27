// SPDX-License-Identifier: Apache-2.0
import { describe, expect, it } from 'vitest';
import type { JobDocument } from '../../../src/job/document';
import { applyOperations, OperationError, type Operation } from '../../../src/job/operations';

const garden = (): JobDocument =>
  ({
    format: 'duskwire-job',
    version: 1,
    id: 'g',
    site: { mains_v: 120, mains_hz: 60, ruleset: 'us', orientation_note: 'kept' },
    luminaires: [
      { id: 'F1', item: 'a', position: [1, 2, 0.2], painted: 'bronze' },
      { id: 'F2', item: 'a' },
    ],
    cables: [{ id: 'C1', item: 'c', from: 'T1-A', to: 'F1', path: [[0, 0], [1, 2]] }],
  }) as unknown as JobDocument;

const undoes = (operations: readonly Operation[]) => {
  const before = garden();
  const { document, inverse } = applyOperations(before, operations);
  expect(applyOperations(document, inverse).document).toEqual(garden());
  expect(before).toEqual(garden());
  return document;
};

describe('operations', () => {
  it('set one value by id and leave unknown keys where they are', () => {
    const document = undoes([{ op: 'set', path: ['luminaires', { id: 'F1' }, 'position'], value: [3, 4, 0.2] }]);
    expect(document.luminaires?.[0]).toEqual({ id: 'F1', item: 'a', position: [3, 4, 0.2], painted: 'bronze' });
  });

  it('share what they do not touch', () => {
    const before = garden();
    const { document } = applyOperations(before, [{ op: 'set', path: ['title'], value: 'Garden' }]);
    expect(document.luminaires).toBe(before.luminaires);
  });

  it('make missing parts and take them away again', () => {
    const document = undoes([{ op: 'set', path: ['plan', 'underlay', 'opacity'], value: 0.5 }]);
    expect(document.plan).toEqual({ underlay: { opacity: 0.5 } });
  });

  it('make a missing list when they insert into it', () => {
    const document = undoes([{ op: 'insert', path: ['plan', 'trees'], value: { id: 'oak', position: [0, 0] } }]);
    expect(document.plan?.trees).toHaveLength(1);
  });

  it('insert and remove members, in order', () => {
    const document = undoes([
      { op: 'remove', path: ['luminaires', { id: 'F1' }] },
      { op: 'insert', path: ['luminaires'], value: { id: 'F3', item: 'b' }, index: 0 },
      { op: 'remove', path: ['cables', { id: 'C1' }] },
    ]);
    expect(document.luminaires?.map(({ id }) => id)).toEqual(['F3', 'F2']);
    expect(document.cables).toEqual([]);
  });

  it('move one bend of a route by its place', () => {
    const document = undoes([{ op: 'set', path: ['cables', { id: 'C1' }, 'path', 1], value: [5, 5] }]);
    expect(document.cables?.[0]?.path).toEqual([[0, 0], [5, 5]]);
  });

  it('remove a key with undefined', () => {
    const document = undoes([{ op: 'set', path: ['luminaires', { id: 'F1' }, 'position'], value: undefined }]);
    expect('position' in document.luminaires![0]!).toBe(false);
  });

  it('replace a member by another with a new id', () => {
    undoes([{ op: 'set', path: ['luminaires', { id: 'F2' }], value: { id: 'F9', item: 'z' } }]);
  });

  it('refuse what is not there', () => {
    expect(() => applyOperations(garden(), [{ op: 'remove', path: ['cables', { id: 'C9' }] }])).toThrow(OperationError);
    expect(() => applyOperations(garden(), [{ op: 'set', path: ['title', 'x'], value: 1 }])).not.toThrow();
    expect(() => applyOperations(garden(), [{ op: 'set', path: ['id', 'x'], value: 1 }])).toThrow(OperationError);
  });
});
