// SPDX-License-Identifier: Apache-2.0
// The engine for the page: typed calls over the worker. The same answers as the command line's --json.
import type { CatalogueFile, JobDocument, Site } from '../job/document';
import type { Request, Response } from './protocol';
import type { Advice, Answer, Materials, Question, RulesetFile } from './answers';
import type { Change, Problem, Report } from './report';

/** The engine refused: the message is for a person, the problems say where. */
export class EngineRefusal extends Error {
  readonly problems: readonly Problem[];

  constructor(message: string, problems: readonly Problem[] = []) {
    super(message);
    this.name = 'EngineRefusal';
    this.problems = problems;
  }
}

export interface Timed<T> {
  readonly value: T;
  /** Inside the engine, reading and writing JSON included. */
  readonly milliseconds: number;
}

export interface StartJob {
  readonly title: string;
  readonly created: string;
  readonly site: Site;
  readonly lamps_csv: string;
}

export interface CheckAnswer {
  /** What the reader of the document has to say; a document with errors has no report. */
  readonly problems: readonly Problem[];
  readonly report: Report | undefined;
}

export interface Engine {
  /** Without cures it is quick enough to answer each move of a drag. */
  check(document: JobDocument, options: { readonly cures: boolean }): Promise<Timed<CheckAnswer>>;
  validate(document: JobDocument): Promise<readonly Problem[]>;
  applyChanges(document: JobDocument, changes: readonly Change[]): Promise<JobDocument>;
  materials(document: JobDocument): Promise<Materials>;
  advise(document: JobDocument): Promise<Advice>;
  ask(question: Question): Promise<Answer>;
  /** A job out of a table of lamps, wired simply, to be changed by hand. */
  startJob(wanted: StartJob): Promise<JobDocument>;
  stock(): Promise<CatalogueFile>;
  rulesets(): Promise<readonly RulesetFile[]>;
}

interface Waiting {
  readonly resolve: (response: Timed<string>) => void;
  readonly reject: (error: Error) => void;
}

/** Numbers the requests and hands each answer to who asked. A worker that dies fails all of them. */
export class Channel {
  #worker: Worker;
  #number = 0;
  #waiting = new Map<number, Waiting>();

  constructor(worker: Worker) {
    this.#worker = worker;
    worker.onmessage = (event: MessageEvent<Response>) => this.#answered(event.data);
    worker.onerror = (event) => this.#died(event.message || 'The engine could not be started.');
    worker.onmessageerror = () => this.#died('The engine sent what could not be read.');
  }

  call(verb: string, given: readonly string[]): Promise<Timed<string>> {
    const request: Request = { number: ++this.#number, verb, arguments: given };
    return new Promise((resolve, reject) => {
      this.#waiting.set(request.number, { resolve, reject });
      this.#worker.postMessage(request);
    });
  }

  #answered(response: Response): void {
    const waiting = this.#waiting.get(response.number);
    this.#waiting.delete(response.number);
    if (!waiting) return;
    if (response.ok) waiting.resolve({ value: response.text, milliseconds: response.milliseconds });
    else waiting.reject(new EngineRefusal(response.message, response.problems));
  }

  #died(message: string): void {
    for (const { reject } of this.#waiting.values()) reject(new EngineRefusal(message));
    this.#waiting.clear();
  }
}

// For whoever measures (tools/bench.mjs): the whole way there and back, and the engine's part of it.
function note(start: number, engineMilliseconds: number, cures: boolean): void {
  performance.clearMeasures('duskwire check');
  performance.measure('duskwire check', { start, end: performance.now(), detail: { engineMilliseconds, cures } });
}

/** The engine in a worker of its own. */
export function startEngine(): Engine {
  const channel = new Channel(new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' }));
  return new WorkerEngine(channel);
}

class WorkerEngine implements Engine {
  #channel: Channel;
  #stock: Promise<CatalogueFile> | undefined;
  #rulesets: Promise<readonly RulesetFile[]> | undefined;

  constructor(channel: Channel) {
    this.#channel = channel;
  }

  async check(document: JobDocument, options: { readonly cures: boolean }): Promise<Timed<CheckAnswer>> {
    const start = performance.now();
    const { value, milliseconds } = await this.#channel.call('check', [JSON.stringify(document), JSON.stringify(options)]);
    const answer = JSON.parse(value) as CheckAnswer;
    note(start, milliseconds, options.cures);
    return { value: answer, milliseconds };
  }

  validate(document: JobDocument): Promise<readonly Problem[]> {
    return this.#ask('validate', document);
  }

  applyChanges(document: JobDocument, changes: readonly Change[]): Promise<JobDocument> {
    return this.#ask('apply_changes', document, changes);
  }

  materials(document: JobDocument): Promise<Materials> {
    return this.#ask('materials', document);
  }

  advise(document: JobDocument): Promise<Advice> {
    return this.#ask('advise', document);
  }

  ask(question: Question): Promise<Answer> {
    return this.#ask('ask', question);
  }

  startJob(wanted: StartJob): Promise<JobDocument> {
    return this.#ask('start_job', wanted);
  }

  stock(): Promise<CatalogueFile> {
    return (this.#stock ??= this.#ask('stock'));
  }

  rulesets(): Promise<readonly RulesetFile[]> {
    return (this.#rulesets ??= this.#ask('rulesets'));
  }

  async #ask<T>(verb: string, ...given: readonly unknown[]): Promise<T> {
    const { value } = await this.#channel.call(verb, given.map((part) => JSON.stringify(part)));
    return JSON.parse(value) as T;
  }
}
