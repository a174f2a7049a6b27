// SPDX-License-Identifier: Apache-2.0
// What the readings of one visit of an open job say: computed while somebody looks at it, anew with each reading.
import { EngineRefusal } from '../engine/client';
import type { Estimates } from '../engine/estimates';
import type { Traced, TraceRequest } from '../engine/trace';
import { LatestWins } from '../engine/latest';
import type { Located, ReadingBesidePlan } from '../engine/locate';
import type { JobDocument } from '../job/document';
import type { Reading } from '../job/visit';
import { visitsOf } from '../job/visit-log';

/** A reading that is being typed, beside the plan. */
export interface Typed {
  readonly compared: ReadingBesidePlan | undefined;
  /** Why the engine puts such a reading aside. */
  readonly unused: string | undefined;
}

interface Asked {
  readonly document: JobDocument;
  readonly visit: string;
}

export class LocateAnswer {
  #queue: LatestWins<Asked, Located>;
  #typing: LatestWins<{ readonly document: JobDocument; readonly reading: Reading }, Typed>;
  #estimates: Estimates;
  #document: JobDocument;
  #visit: string | undefined = $state();
  #reading: Reading | undefined;
  #lookers = 0;
  #resting: ReturnType<typeof setTimeout> | undefined;
  // The visits and the wiring that the last question was about: a new title asks nothing.
  #asked: Asked | undefined;

  /** Of the visit that is looked at; of an older state of it while `pending`. */
  located: Located | undefined = $state.raw();
  typed: Typed | undefined = $state.raw();
  pending = $state(false);
  failure: string | undefined = $state();

  constructor(document: JobDocument, estimates: Estimates) {
    this.#estimates = estimates;
    this.#document = document;
    this.#queue = new LatestWins(
      (asked) => estimates.locate(asked.document, { visit: visitsOf(asked.document).findIndex(({ id }) => id === asked.visit) }),
      (located, asked) => {
        this.pending = asked !== this.#asked;
        if (asked.visit !== this.#visit) return;
        this.located = located;
        this.failure = undefined;
      },
      (error) => this.#failed(error),
    );
    this.#typing = new LatestWins(
      async ({ document: asked, reading }) => {
        const index = visitsOf(asked).findIndex(({ id }) => id === this.#visit);
        const answer = await estimates.readings(asked, { ...(index >= 0 && { visit: index }), readings: [reading], readings_alone: true });
        return { compared: answer.compared.at(-1), unused: answer.unused.at(-1)?.why };
      },
      (typed, { reading }) => reading === this.#reading && (this.typed = typed),
      (error) => this.#failed(error),
    );
  }

  get visit(): string | undefined {
    return this.#visit;
  }

  /** By its id. */
  look(visit: string | undefined): void {
    if (visit !== this.#visit) {
      this.#visit = visit;
      this.located = undefined;
    }
    this.#ask();
  }

  /** The reading that is being typed; undefined: none. */
  type(reading: Reading | undefined): void {
    this.#reading = reading;
    if (this.#resting !== undefined) this.#rest();
    this.typed = undefined;
    if (reading) this.#typing.put({ document: this.#document, reading });
  }

  /** The wiring of a garden without a plan. */
  trace(document: JobDocument, request: TraceRequest): Promise<Traced> {
    return this.#estimates.trace(document, request);
  }

  changed(document: JobDocument): void {
    this.#document = document;
    this.#ask();
  }

  /** Somebody looks; returns how to look away. */
  watch(): () => void {
    this.#lookers += 1;
    this.#ask();
    return () => (this.#lookers -= 1);
  }

  stop(): void {
    this.#lookers = 0;
    clearTimeout(this.#resting);
    this.#resting = undefined;
  }

  #ask(): void {
    const visit = this.#visit;
    const document = this.#document;
    if (this.#lookers === 0 || visit === undefined || !visitsOf(document).some(({ id }) => id === visit)) return;
    if (this.#asked && this.#asked.visit === visit && sameForTheEngine(this.#asked.document, document)) return;
    this.#asked = { document, visit };
    this.pending = true;
    // The first look is answered at once; readings that are written one after the other are weighed together.
    if (this.located) this.#rest();
    else this.#weigh();
  }

  #rest(): void {
    clearTimeout(this.#resting);
    this.#resting = setTimeout(() => this.#weigh(), restMs);
  }

  #weigh(): void {
    clearTimeout(this.#resting);
    this.#resting = undefined;
    if (this.#asked) this.#queue.put(this.#asked);
  }

  #failed(error: unknown): void {
    this.pending = false;
    if (error instanceof EngineRefusal && error.code === 'ended') return;
    this.failure = error instanceof Error ? error.message : String(error);
  }
}

/** Typing has paused when no key was pressed for so long. */
const restMs = 600;

const parts = ['site', 'practice', 'catalogue', 'plan', 'luminaires', 'transformers', 'cables', 'joints', 'visits'] as const;
const sameForTheEngine = (a: JobDocument, b: JobDocument): boolean => parts.every((part) => a[part] === b[part]);
