// SPDX-License-Identifier: Apache-2.0
// The levels of light of an open job: computed while somebody looks at them (a pane, the night plan), a moment after
// the hand rests, and never in the way of the check.
import { EngineRefusal } from '../engine/client';
import { LatestWins } from '../engine/latest';
import type { Levels, PlaceLevels } from '../engine/levels';
import { startLight, type LightEngine } from '../engine/light-engine';
import type { JobDocument } from '../job/document';
import { byId } from './live.svelte';

/** How the plan shows the light on the ground: numbers as colours, or as the eye may find it. */
export type NightLook = 'colours' | 'pools';

type Question = readonly [JobDocument, boolean];

const restMilliseconds = 200;

export class LightAnswer {
  readonly engine: LightEngine;
  #queue: LatestWins<Question, Levels>;
  #document: JobDocument;
  #lookers = 0;
  #rest: ReturnType<typeof setTimeout> | undefined;

  /** The last answer; of an older document while `pending`. */
  levels: Levels | undefined = $state.raw();
  of: JobDocument | undefined = $state.raw();
  pending = $state(false);
  failure: string | undefined = $state();
  look: NightLook = $state('colours');
  #bounce = $state(false);

  places: ReadonlyMap<string, PlaceLevels> = $derived(byId(this.levels?.places));

  constructor(document: JobDocument, engine: LightEngine = startLight()) {
    this.#document = document;
    this.engine = engine;
    this.#queue = new LatestWins<Question, Levels>(
      ([asked, bounce]) => engine.levels(asked, bounce),
      (levels, [asked, bounce]) => {
        this.levels = levels;
        this.of = asked;
        this.failure = undefined;
        this.pending = asked !== this.#document || bounce !== this.#bounce;
      },
      (error) => {
        this.pending = false;
        if (error instanceof EngineRefusal && error.code === 'ended') return;
        this.failure = error instanceof Error ? error.message : String(error);
      },
    );
  }

  /** Whether light that bounced once is counted. */
  get bounce(): boolean {
    return this.#bounce;
  }
  set bounce(counted: boolean) {
    if (counted === this.#bounce) return;
    this.#bounce = counted;
    this.of = undefined;
    if (this.#lookers > 0) this.#ask(0);
  }

  /** The job has changed. */
  changed(document: JobDocument): void {
    this.#document = document;
    if (this.#lookers > 0) this.#ask(restMilliseconds);
  }

  /** Somebody looks; returns how to look away. */
  watch(): () => void {
    this.#lookers += 1;
    if (this.of !== this.#document) this.#ask(0);
    return () => (this.#lookers -= 1);
  }

  stop(): void {
    clearTimeout(this.#rest);
    this.#lookers = 0;
    this.engine.end();
  }

  #ask(afterMilliseconds: number): void {
    this.pending = true;
    clearTimeout(this.#rest);
    this.#rest = setTimeout(() => this.#queue.put([this.#document, this.#bounce]), afterMilliseconds);
  }
}
