// SPDX-License-Identifier: Apache-2.0
import { describe, expect, it } from 'vitest';
import { difference } from '../../../src/job/difference';
import type { JobDocument } from '../../../src/job/document';
import { applyOperations } from '../../../src/job/operations';

type Loose = Record<string, unknown>;

// Mulberry32, seeded: the same cases in every run.
function random(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

function anyDocument(next: () => number): JobDocument {
  const list = (prefix: string): Loose[] =>
    Array.from({ length: Math.floor(next() * 6) }, () => `${prefix}${Math.floor(next() * 8)}`)
      .filter((id, index, all) => all.indexOf(id) === index)
      .map((id) => ({ id, value: Math.floor(next() * 3), ...(next() < 0.5 && { extra: [1, Math.floor(next() * 3)] }) }));
  return {
    ...(next() < 0.5 && { title: `T${Math.floor(next() * 3)}` }),
    luminaires: list('F'),
    ...(next() < 0.7 && { plan: { trees: list('tree'), north_deg: Math.floor(next() * 4) } }),
    transformers: [{ id: 'T1', outputs: list('out') }],
  } as unknown as JobDocument;
}

describe('difference', () => {
  it('leads from any document to any other, and its inverse back', () => {
    const next = random(20260302);
    for (let round = 0; round < 500; round += 1) {
      const before = anyDocument(next);
      const after = anyDocument(next);
      const { document, inverse } = applyOperations(before, difference(before, after));
      expect(document).toEqual(after);
      expect(applyOperations(document, inverse).document).toEqual(before);
    }
  });

  it('touches only what differs', () => {
    const before = { luminaires: [{ id: 'F1', item: 'a', kept: true }, { id: 'F2', item: 'a' }] };
    const after = { luminaires: [{ id: 'F1', item: 'b', kept: true }, { id: 'F2', item: 'a' }] };
    expect(difference(before, after)).toEqual([{ op: 'set', path: ['luminaires', { id: 'F1' }, 'item'], value: 'b' }]);
  });

  it('is empty between equal documents', () => {
    expect(difference({ a: [{ id: 'x', v: [1, 2] }] }, { a: [{ id: 'x', v: [1, 2] }] })).toEqual([]);
  });
});
