// SPDX-License-Identifier: Apache-2.0
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Estimates } from '../../../src/engine/estimates';
import type { Price, PriceMove } from '../../../src/engine/price';
import type { JobDocument } from '../../../src/job/document';
import { PriceAnswer } from '../../../src/session/price.svelte';
import { garden } from '../support/garden';

const titled = (title: string): JobDocument => ({ ...garden(), title });

function estimatesOf() {
  const asked: string[] = [];
  const estimates = {
    price: (job: JobDocument) => (asked.push(`price ${job.title}`), Promise.resolve({ total_minor: job.title!.length } as Price)),
    priceMove: (before: JobDocument, after: JobDocument) => (asked.push(`move ${before.title} ${after.title}`), Promise.resolve({ summary: `${before.title} to ${after.title}` } as PriceMove)),
  } as unknown as Estimates;
  return { estimates, asked };
}

describe('the live price', () => {
  beforeEach(() => void vi.useFakeTimers());
  afterEach(() => void vi.useRealTimers());
  const settle = () => vi.advanceTimersByTimeAsync(500);

  it('is computed only while somebody looks', async () => {
    const { estimates, asked } = estimatesOf();
    const answer = new PriceAnswer(titled('a'), estimates);
    answer.changed(titled('b'));
    await settle();
    expect(asked).toEqual([]);
    const away = answer.watch();
    await settle();
    expect(asked).toEqual(['price b', 'move a b']);
    expect(answer.move!.summary).toBe('a to b');
    away();
    answer.changed(titled('c'));
    await settle();
    expect(asked.length).toBe(2);
  });

  it('counts moves from the opening, from the last look, or from a mark', async () => {
    const { estimates } = estimatesOf();
    const answer = new PriceAnswer(titled('a'), estimates);
    answer.watch()();
    answer.changed(titled('b'));
    answer.watch();
    await settle();
    expect(answer.looked).toBe(true);
    expect(answer.move!.summary).toBe('a to b');
    answer.changed(titled('c'));
    answer.mark();
    await settle();
    expect(answer.move).toBeUndefined();
    answer.changed(titled('d'));
    await settle();
    expect(answer.move!.summary).toBe('c to d');
    answer.compareWith('opened');
    await settle();
    expect(answer.move!.summary).toBe('a to d');
  });

  it('asks once for a row of quick changes, and says why there is no answer', async () => {
    const { estimates, asked } = estimatesOf();
    const answer = new PriceAnswer(titled('a'), estimates);
    answer.watch();
    await settle();
    for (const title of ['b', 'c', 'd']) answer.changed(titled(title));
    await settle();
    expect(asked).toEqual(['price a', 'price d', 'move a d']);
    estimates.price = () => Promise.reject(new Error('The job is broken.'));
    answer.changed(titled('e'));
    await settle();
    expect(answer.failure).toBe('The job is broken.');
  });
});
