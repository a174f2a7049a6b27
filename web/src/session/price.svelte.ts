// SPDX-License-Identifier: Apache-2.0
// The price of an open job: computed while somebody looks at it, a moment after the hand rests, and why it has moved
// since the job was opened or since somebody last looked.
import { EngineRefusal } from '../engine/client';
import type { Estimates } from '../engine/estimates';
import { LatestWins } from '../engine/latest';
import type { Price, PriceMove } from '../engine/price';
import type { JobDocument } from '../job/document';

export type Since = 'opened' | 'look';

interface Question {
  readonly document: JobDocument;
  readonly before: JobDocument;
}

interface Answer {
  readonly price: Price;
  readonly move: PriceMove | undefined;
}

const restMilliseconds = 120;

export class PriceAnswer {
  readonly estimates: Estimates;
  #queue: LatestWins<Question, Answer>;
  #document: JobDocument;
  #opened: JobDocument;
  #look: JobDocument | undefined = $state.raw();
  #since: Since = $state('opened');
  #lookers = 0;
  #rest: ReturnType<typeof setTimeout> | undefined;

  /** The last answer; of an older document while `pending`. */
  price: Price | undefined = $state.raw();
  /** Absent where nothing has changed since. */
  move: PriceMove | undefined = $state.raw();
  of: JobDocument | undefined = $state.raw();
  pending = $state(false);
  failure: string | undefined = $state();

  constructor(document: JobDocument, estimates: Estimates) {
    this.#document = document;
    this.#opened = document;
    this.estimates = estimates;
    this.#queue = new LatestWins<Question, Answer>(
      async (asked) => ({
        price: await estimates.price(asked.document),
        move: asked.before === asked.document ? undefined : await estimates.priceMove(asked.before, asked.document),
      }),
      ({ price, move }, asked) => {
        this.price = price;
        this.move = move;
        this.of = asked.document;
        this.failure = undefined;
        this.pending = asked.document !== this.#document || asked.before !== this.#before;
      },
      (error) => {
        this.pending = false;
        if (error instanceof EngineRefusal && error.code === 'ended') return;
        this.failure = error instanceof Error ? error.message : String(error);
      },
    );
  }

  get since(): Since {
    return this.#since;
  }

  /** Whether there was a look before this one. */
  get looked(): boolean {
    return this.#look !== undefined;
  }

  compareWith(since: Since): void {
    if (since === this.#since) return;
    this.#since = since;
    if (this.#lookers > 0) this.#ask(0);
  }

  /** From now on moves are counted from the job as it stands. */
  mark(): void {
    this.#look = this.#document;
    this.#since = 'look';
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
    return () => {
      this.#lookers -= 1;
      if (this.#lookers === 0) this.#look = this.#document;
    };
  }

  stop(): void {
    clearTimeout(this.#rest);
    this.#lookers = 0;
  }

  get #before(): JobDocument {
    return (this.#since === 'look' ? this.#look : undefined) ?? this.#opened;
  }

  #ask(afterMilliseconds: number): void {
    this.pending = true;
    clearTimeout(this.#rest);
    this.#rest = setTimeout(() => this.#queue.put({ document: this.#document, before: this.#before }), afterMilliseconds);
  }
}
