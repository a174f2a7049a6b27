// SPDX-License-Identifier: Apache-2.0
// A planner that answers from a script, slice by slice, under a clock that the test moves.
import type { Planner } from '../../../src/engine/planner';
import type { RouteAnswer, RouteFigures, RouteProgress, RouteRequest } from '../../../src/engine/route';
import type { JobDocument } from '../../../src/job/document';

export const figures = (change: Partial<Omit<RouteFigures, 'cost'>> & { readonly cost?: Partial<RouteFigures['cost']> } = {}): RouteFigures => ({
  lowest_v: 10.1, lowest_lamp: 'F5', least_room_v: 0.1, least_room_lamp: 'F5', load_margin: 1.5, load_va: 200, rating_va: 900,
  transformers: 2, outputs: 3, errors: 0, wired: true, sound: true,
  ...change,
  cost: { cost_minor: 1_000_000, material_minor: 700_000, labour_min: 1200, trench_min: 600, trench_m: 100, cable_m: 200, joints: 30, cable_types: 2, ...change.cost },
});

export const answerOf = (job: JobDocument | null, change: Partial<RouteAnswer> = {}): RouteAnswer => ({
  job, today: figures(), planned: figures(), sleeves_to_lay: [], bound_minor: 0, runs: [], obstacles: [], steps: 1, ...change,
});

export const progressOf = (costMinor: number, change: Partial<RouteProgress> = {}): RouteProgress => ({
  steps: 1, cost_minor: costMinor, first_minor: costMinor, trench_m: 100, cable_m: 200, joints: 30, lamps_placed: 40, lamps: 40, more: true, ...change,
});

export class FakePlanner implements Planner {
  now = 0;
  readonly calls: string[] = [];
  readonly requests: RouteRequest[] = [];
  /** What each slice finds; the last is found again and again. */
  costs: readonly number[] = [0];
  /** How many slices bring anything. */
  slices = Infinity;
  best: () => RouteAnswer = () => answerOf(null);
  /** Done at the end of each slice. */
  onslice: (slice: number) => void = () => undefined;
  failure: Error | undefined;
  #slice = 0;

  warm(document: JobDocument): void {
    this.calls.push(`warm ${document.id}`);
  }

  begin(document: JobDocument, request: RouteRequest): Promise<RouteProgress> {
    this.calls.push(`begin ${document.id}`);
    this.requests.push(request);
    this.#slice = 0;
    this.now += 5;
    return this.#answer(() => progressOf(0));
  }

  search(milliseconds: number): Promise<RouteProgress> {
    this.calls.push(`search ${milliseconds}`);
    this.now += milliseconds;
    const slice = this.#slice++;
    this.onslice(slice);
    return this.#answer(() => progressOf(this.costs[Math.min(slice, this.costs.length - 1)]!, { more: slice + 1 < this.slices }));
  }

  answer(): Promise<RouteAnswer> {
    this.calls.push('answer');
    return this.#answer(this.best);
  }

  end(): void {
    this.calls.push('end');
  }

  async #answer<T>(of: () => T): Promise<T> {
    await Promise.resolve();
    if (this.failure) throw this.failure;
    return of();
  }
}
