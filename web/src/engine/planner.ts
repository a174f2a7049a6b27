// SPDX-License-Identifier: Apache-2.0
// The planner of the wiring in a worker of its own, so that checks stay as quick as ever while it searches. The worker
// is started when it is first needed and goes when the search is forgotten, or when it does not answer any more.
import type { JobDocument } from '../job/document';
import { EngineRefusal, startChannel, type Channel } from './client';
import type { RouteAnswer, RouteProgress, RouteRequest } from './route';

export interface Planner {
  /** Starts the worker and lets it wire the garden once for nothing: a browser compiles what has run, so that the first
   *  wiring of a search is there at once. Says nothing, whatever comes of it. */
  warm(document: JobDocument): void;
  /** Starts a search; one that is running is replaced. */
  begin(document: JobDocument, request: RouteRequest): Promise<RouteProgress>;
  /** Searches on for about that long. */
  search(milliseconds: number): Promise<RouteProgress>;
  /** The best so far, checked in full. The search may go on. */
  answer(): Promise<RouteAnswer>;
  /** Forgets the search and lets go of the worker. */
  end(): void;
}

// Far longer than any step takes; past it the worker is taken for dead.
const patienceMilliseconds = 60_000;

export const startPlanner = (start: () => Channel = startChannel, patience = patienceMilliseconds): Planner => new WorkerPlanner(start, patience);

class WorkerPlanner implements Planner {
  #start: () => Channel;
  #patience: number;
  #channel: Channel | undefined;

  constructor(start: () => Channel, patience: number) {
    this.#start = start;
    this.#patience = patience;
  }

  warm(document: JobDocument): void {
    this.#channel ??= this.#start();
    const wire = async (): Promise<void> => {
      await this.#ask('route_begin', document, {});
      await this.#ask('route_search', 1);
    };
    wire().catch(() => undefined);
  }

  begin(document: JobDocument, request: RouteRequest): Promise<RouteProgress> {
    this.#channel ??= this.#start();
    return this.#ask('route_begin', document, request);
  }

  search(milliseconds: number): Promise<RouteProgress> {
    return this.#ask('route_search', milliseconds);
  }

  answer(): Promise<RouteAnswer> {
    return this.#ask('route_answer');
  }

  end(): void {
    this.#drop(new EngineRefusal('The search was ended.', [], 'ended'));
  }

  async #ask<T>(verb: string, ...given: readonly unknown[]): Promise<T> {
    const channel = this.#channel;
    if (!channel) throw new EngineRefusal('There is no search to go on with.');
    const watch = setTimeout(() => {
      if (channel === this.#channel) this.#drop(new EngineRefusal(`The planner has not answered for ${this.#patience / 1000} s and was ended. Try again, or plan a part of the garden.`));
    }, this.#patience);
    try {
      const { value } = await channel.call(verb, given.map((part) => JSON.stringify(part)));
      return JSON.parse(value) as T;
    } catch (error) {
      // A refusal with a code of the engine's own leaves a worker that goes on; without one the worker is lost.
      if (error instanceof EngineRefusal && error.code === 'unavailable' && channel === this.#channel) this.#drop(error);
      throw error;
    } finally {
      clearTimeout(watch);
    }
  }

  #drop(reason: Error): void {
    this.#channel?.end(reason);
    this.#channel = undefined;
  }
}
