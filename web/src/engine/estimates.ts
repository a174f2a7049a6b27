// SPDX-License-Identifier: Apache-2.0
// Price, times and fault finding in a worker of their own: they take longer than a check, and checks must not wait.
import type { JobDocument } from '../job/document';
import { EngineRefusal, startChannel, type Channel } from './client';
import type { ComparedReadings, Located, LocateRequest } from './locate';
import type { DepositRules, FirstLookRequest, Price, PriceBand, PriceMove } from './price';
import type { Times, TimesRequest } from './times';
import type { Traced, TraceRequest } from './trace';

export interface Estimates {
  price(document: JobDocument): Promise<Price>;
  priceMove(before: JobDocument, after: JobDocument): Promise<PriceMove>;
  priceBand(request: FirstLookRequest): Promise<PriceBand>;
  depositRules(): Promise<DepositRules>;
  times(document: JobDocument, request: TimesRequest): Promise<Times>;
  /** Where a fault sits, by the readings of a visit. */
  locate(document: JobDocument, request: LocateRequest): Promise<Located>;
  /** The readings beside the plan. */
  readings(document: JobDocument, request: LocateRequest): Promise<ComparedReadings>;
  /** The wiring of a garden without a plan, as far as a walk tells. */
  trace(document: JobDocument, request: TraceRequest): Promise<Traced>;
  /** Lets go of the worker; the next question starts another. */
  end(): void;
}

export const startEstimates = (start: () => Channel = startChannel): Estimates => new WorkerEstimates(start);

class WorkerEstimates implements Estimates {
  #start: () => Channel;
  #channel: Channel | undefined;
  #rules: Promise<DepositRules> | undefined;

  constructor(start: () => Channel) {
    this.#start = start;
  }

  price(document: JobDocument): Promise<Price> {
    return this.#ask('price', document);
  }

  priceMove(before: JobDocument, after: JobDocument): Promise<PriceMove> {
    return this.#ask('price_difference', before, after);
  }

  priceBand(request: FirstLookRequest): Promise<PriceBand> {
    return this.#ask('price_band', request);
  }

  depositRules(): Promise<DepositRules> {
    this.#rules ??= this.#ask<DepositRules>('deposit_rules');
    // What failed is asked anew next time.
    this.#rules.catch(() => (this.#rules = undefined));
    return this.#rules;
  }

  times(document: JobDocument, request: TimesRequest): Promise<Times> {
    return this.#ask('times', document, request);
  }

  locate(document: JobDocument, request: LocateRequest): Promise<Located> {
    return this.#ask('locate', document, request);
  }

  readings(document: JobDocument, request: LocateRequest): Promise<ComparedReadings> {
    return this.#ask('readings', document, request);
  }

  trace(document: JobDocument, request: TraceRequest): Promise<Traced> {
    return this.#ask('trace', document, request);
  }

  end(): void {
    this.#channel?.end(new EngineRefusal('The estimates were put away.', [], 'ended'));
    this.#channel = undefined;
  }

  async #ask<T>(verb: string, ...given: readonly unknown[]): Promise<T> {
    this.#channel ??= this.#start();
    const { value } = await this.#channel.call(verb, given.map((part) => JSON.stringify(part)));
    return JSON.parse(value) as T;
  }
}
