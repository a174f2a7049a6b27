// SPDX-License-Identifier: Apache-2.0
// What page and night worker say to each other: as protocol.ts, with a picture beside the texts. Pictures are handed
// over, not copied.
import { EngineRefusal } from './client';
import type { Problem } from './report';

export interface NightRequest {
  readonly verb: string;
  readonly given: readonly string[];
  readonly image?: ImageData;
}

export interface NightAnswer {
  readonly text: string;
  readonly image?: ImageData;
  readonly milliseconds: number;
}

export interface Numbered {
  readonly number: number;
}

export type NightResponse =
  | (Numbered & NightAnswer & { readonly ok: true })
  | (Numbered & { readonly ok: false; readonly message: string; readonly code?: string; readonly problems: readonly Problem[] });

interface Waiting {
  readonly resolve: (answer: NightAnswer) => void;
  readonly reject: (error: Error) => void;
}

export class NightChannel {
  #worker: Worker;
  #number = 0;
  #waiting = new Map<number, Waiting>();

  constructor(worker: Worker) {
    this.#worker = worker;
    worker.onmessage = (event: MessageEvent<NightResponse>) => this.#answered(event.data);
    worker.onerror = (event) => this.#fail(new EngineRefusal(event.message || 'The night view could not be started.'));
    worker.onmessageerror = () => this.#fail(new EngineRefusal('The night view sent what could not be read.'));
  }

  call(request: NightRequest): Promise<NightAnswer> {
    const number = ++this.#number;
    return new Promise((resolve, reject) => {
      this.#waiting.set(number, { resolve, reject });
      this.#worker.postMessage({ ...request, number });
    });
  }

  end(reason: Error): void {
    this.#worker.terminate();
    this.#fail(reason);
  }

  #answered(response: NightResponse): void {
    const waiting = this.#waiting.get(response.number);
    this.#waiting.delete(response.number);
    if (!waiting) return;
    if (response.ok) waiting.resolve(response);
    else waiting.reject(new EngineRefusal(response.message, response.problems, response.code));
  }

  #fail(reason: Error): void {
    for (const { reject } of this.#waiting.values()) reject(reason);
    this.#waiting.clear();
  }
}

export const startNightChannel = (): NightChannel => new NightChannel(new Worker(new URL('./night-worker.ts', import.meta.url), { type: 'module' }));
