// SPDX-License-Identifier: Apache-2.0
// The levels of light in a worker of their own: they take longer than a check, and checks must not wait for them.
import type { JobDocument } from '../job/document';
import { EngineRefusal, startChannel, type Channel } from './client';
import type { Chosen, ChooseTarget, Levels, LevelSet } from './levels';

export interface LightEngine {
  /** With `bounce` also the light that bounced once: that takes seconds where there is much of it. */
  levels(document: JobDocument, bounce: boolean): Promise<Levels>;
  sets(): Promise<readonly LevelSet[]>;
  choose(document: JobDocument, target: ChooseTarget): Promise<Chosen>;
  /** Lets go of the worker; the next question starts another. */
  end(): void;
}

export const startLight = (start: () => Channel = startChannel): LightEngine => new WorkerLight(start);

class WorkerLight implements LightEngine {
  #start: () => Channel;
  #channel: Channel | undefined;
  #sets: Promise<readonly LevelSet[]> | undefined;

  constructor(start: () => Channel) {
    this.#start = start;
  }

  levels(document: JobDocument, bounce: boolean): Promise<Levels> {
    return this.#ask('levels', document, { plan: true, bounce });
  }

  sets(): Promise<readonly LevelSet[]> {
    this.#sets ??= this.#ask<readonly LevelSet[]>('level_sets');
    // What failed is asked anew next time.
    this.#sets.catch(() => (this.#sets = undefined));
    return this.#sets;
  }

  choose(document: JobDocument, target: ChooseTarget): Promise<Chosen> {
    return this.#ask('choose', document, target);
  }

  end(): void {
    this.#channel?.end(new EngineRefusal('The levels were put away.', [], 'ended'));
    this.#channel = undefined;
  }

  async #ask<T>(verb: string, ...given: readonly unknown[]): Promise<T> {
    this.#channel ??= this.#start();
    const { value } = await this.#channel.call(verb, given.map((part) => JSON.stringify(part)));
    return JSON.parse(value) as T;
  }
}
