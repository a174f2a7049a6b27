// SPDX-License-Identifier: Apache-2.0
// The planner over a worker of its own that answers when it is told to, and the search as a row of slices.
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { Channel } from '../../../src/engine/client';
import { startPlanner, type Planner } from '../../../src/engine/planner';
import type { Request, Response } from '../../../src/engine/protocol';
import { searchRoute, sliceMilliseconds, type SearchWatch } from '../../../src/engine/route-search';
import { answerOf, FakePlanner, progressOf } from '../support/fake-planner';
import { garden } from '../support/garden';

class SlowWorker {
  onmessage: ((event: { data: Response }) => void) | null = null;
  onerror: ((event: { message: string }) => void) | null = null;
  readonly requests: Request[] = [];
  ended = false;
  postMessage(request: Request): void {
    this.requests.push(request);
  }
  terminate(): void {
    this.ended = true;
  }
  answer(value: unknown): void {
    this.onmessage?.({ data: { number: this.requests.at(-1)!.number, ok: true, text: JSON.stringify(value), milliseconds: 1 } });
  }
  refuse(message: string, code?: string): void {
    this.onmessage?.({ data: { number: this.requests.at(-1)!.number, ok: false, message, ...(code !== undefined && { code }), problems: [] } });
  }
}

describe('the planner', () => {
  let workers: SlowWorker[];
  let planner: Planner;
  const patience = 1000;

  beforeEach(() => {
    vi.useFakeTimers();
    workers = [];
    planner = startPlanner(() => {
      const worker = new SlowWorker();
      workers.push(worker);
      return new Channel(worker as unknown as Worker);
    }, patience);
  });
  afterEach(() => vi.useRealTimers());

  it('starts a worker when a search begins, and asks the verbs with their arguments as JSON', async () => {
    expect(workers).toHaveLength(0);
    const begun = planner.begin(garden(), { no_hub: true });
    workers[0]!.answer(progressOf(0));
    expect(await begun).toEqual(progressOf(0));
    const slice = planner.search(120);
    workers[0]!.answer(progressOf(5));
    await slice;
    const answer = planner.answer();
    workers[0]!.answer(answerOf(null));
    expect((await answer).job).toBeNull();
    expect(workers).toHaveLength(1);
    expect(workers[0]!.requests.map(({ verb, arguments: given }) => [verb, ...given])).toEqual([
      ['route_begin', JSON.stringify(garden()), '{"no_hub":true}'], ['route_search', '120'], ['route_answer'],
    ]);
  });

  it('wires once for nothing when warmed, and begins the search in the same worker', async () => {
    planner.warm(garden());
    workers[0]!.answer(progressOf(0));
    await Promise.resolve();
    await vi.advanceTimersByTimeAsync(0);
    expect(workers[0]!.requests.map(({ verb }) => verb)).toEqual(['route_begin', 'route_search']);
    workers[0]!.refuse('The job cannot be used.', 'invalid');
    await vi.advanceTimersByTimeAsync(0);
    const begun = planner.begin(garden(), {});
    workers[0]!.answer(progressOf(3));
    expect(await begun).toEqual(progressOf(3));
    expect(workers).toHaveLength(1);
  });

  it('keeps the worker after a refusal of the engine', async () => {
    const begun = planner.begin(garden(), {});
    workers[0]!.refuse('The job cannot be used.', 'invalid');
    await expect(begun).rejects.toThrow('The job cannot be used.');
    expect(workers[0]!.ended).toBe(false);
    void planner.begin(garden(), {});
    expect(workers).toHaveLength(1);
  });

  it.each([
    ['breaks', (worker: SlowWorker) => worker.onerror?.({ message: 'out of memory' }), 'out of memory'],
    ['fails without a code of the engine', (worker: SlowWorker) => worker.refuse('unreachable'), 'unreachable'],
    ['does not answer', () => vi.advanceTimersByTime(patience), 'has not answered for 1 s'],
  ])('tells of a worker that %s, lets go of it and takes a new one next time', async (_how, strike, words) => {
    const begun = planner.begin(garden(), {});
    const told = expect(begun).rejects.toThrow(words);
    strike(workers[0]!);
    await told;
    expect(workers[0]!.ended).toBe(true);
    await expect(planner.search(1)).rejects.toThrow('no search');
    const again = planner.begin(garden(), {});
    workers[1]!.answer(progressOf(0));
    await again;
  });

  it('ends the worker with what it was about to answer', async () => {
    const begun = planner.begin(garden(), {});
    const told = expect(begun).rejects.toThrow('ended');
    planner.end();
    await told;
    expect(workers[0]!.ended).toBe(true);
  });
});

describe('a search', () => {
  let planner: FakePlanner;
  let said: string[];
  let stop: boolean;

  const watch = (longestMilliseconds: number): SearchWatch => ({
    longestMilliseconds,
    stopped: () => stop,
    onprogress: ({ cost_minor }) => said.push(`cost ${cost_minor}`),
    onfound: () => said.push('found'),
    onchecking: () => said.push('checking'),
    now: () => planner.now,
  });

  beforeEach(() => {
    planner = new FakePlanner();
    said = [];
    stop = false;
  });

  it('goes on in short slices to its time, no longer, and then answers', async () => {
    planner.costs = [0, 9, 8];
    await searchRoute(planner, garden(), {}, watch(400));
    expect(planner.calls).toEqual(['begin g', 'search 120', 'search 120', 'answer', 'search 120', 'search 35', 'answer']);
    expect(sliceMilliseconds).toBe(120);
    expect(said).toEqual(['cost 0', 'cost 0', 'cost 9', 'found', 'cost 8', 'cost 8', 'checking']);
  });

  it.each([
    ['a sound one', garden('planned'), 10, [125, 2050, 2050], 500, [125, 5060, 5060]],
    ['none that is sound', null, 10, [125, 490, 490], 500, [125, 2060, 2060]],
  ])('looks again at a better one, the seldomer the longer a look takes: %s', async (_what, job, quick, afterQuick, slow, afterSlow) => {
    planner.costs = Array.from({ length: 200 }, (_, slice) => 1000 - slice);
    for (const [took, gaps] of [[quick, afterQuick], [slow, afterSlow]] as const) {
      const looks: number[] = [];
      planner.now = 0;
      planner.best = () => {
        looks.push(planner.now);
        planner.now += took;
        return answerOf(job);
      };
      await searchRoute(planner, garden(), {}, watch(20_000));
      expect(looks.slice(0, 3).map((at, index) => at - (looks[index - 1] ?? 0))).toEqual(gaps);
    }
  });

  it('does not look again at the same', async () => {
    planner.costs = [9];
    await searchRoute(planner, garden(), {}, watch(20_000));
    expect(planner.calls.filter((call) => call === 'answer')).toHaveLength(2);
  });

  it('ends once nothing more is to be gained', async () => {
    planner.costs = [9];
    planner.slices = 1;
    await searchRoute(planner, garden(), {}, watch(60_000));
    expect(planner.calls).toEqual(['begin g', 'search 120', 'answer']);
  });

  it('stops after the present slice with the best so far', async () => {
    planner.costs = [9, 8];
    planner.onslice = (slice) => (stop = slice === 1);
    planner.best = () => answerOf(garden('planned'));
    const answer = await searchRoute(planner, garden(), {}, watch(60_000));
    expect(planner.calls).toEqual(['begin g', 'search 120', 'answer', 'search 120', 'answer']);
    expect(answer.job?.title).toBe('planned');
  });
});
