// SPDX-License-Identifier: Apache-2.0
// The engine for the page: typed calls over the worker. The same answers as the command line's --json.
import type { CatalogueFile, JobDocument, Site } from '../job/document';
import type { CalibrationAnswer } from './calibration';
import { changedParts } from './changed-parts';
import type { PhotometryAnswer, PhotometryQuestion } from './photometry';
import type { Request, Response } from './protocol';
import type { Advice, Answer, ExportText, Materials, Question, RulesetFile } from './answers';
import type { Change, Problem, Report } from './report';

/** The engine refused: the message is for a person, the problems say where. */
export class EngineRefusal extends Error {
  readonly problems: readonly Problem[];
  readonly code: string;

  constructor(message: string, problems: readonly Problem[] = [], code = 'unavailable') {
    super(message);
    this.name = 'EngineRefusal';
    this.problems = problems;
    this.code = code;
  }
}

/** A newer question took the place of this one. */
export class Superseded extends Error {}

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
  /**
   * Without cures it is quick enough to answer each move of a drag. With cures it may take seconds, so it runs aside
   * and gives way to the next call with cures: the earlier one rejects with Superseded.
   */
  check(document: JobDocument, options: { readonly cures: boolean }): Promise<Timed<CheckAnswer>>;
  validate(document: JobDocument): Promise<readonly Problem[]>;
  applyChanges(document: JobDocument, changes: readonly Change[]): Promise<JobDocument>;
  materials(document: JobDocument): Promise<Materials>;
  advise(document: JobDocument): Promise<Advice>;
  ask(question: Question): Promise<Answer>;
  /** A job out of a table of lamps, wired simply, to be changed by hand. */
  startJob(wanted: StartJob): Promise<JobDocument>;
  /** The camera of a photograph and what is measured on it. */
  calibrate(document: JobDocument, view: string): Promise<CalibrationAnswer>;
  /** How one lamp spreads its light: an article of the job, or a file before it is put into one. */
  photometry(question: PhotometryQuestion): Promise<PhotometryAnswer>;
  /** What an exported file holds beside document, pictures and papers: README.txt first, tables, the schema. */
  exportTexts(document: JobDocument): Promise<readonly ExportText[]>;
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

  /** Ends the worker with what it was about to answer. */
  end(reason: Error): void {
    this.#worker.terminate();
    this.#fail(reason);
  }

  get busy(): boolean {
    return this.#waiting.size > 0;
  }

  #answered(response: Response): void {
    const waiting = this.#waiting.get(response.number);
    this.#waiting.delete(response.number);
    if (!waiting) return;
    if (response.ok) waiting.resolve({ value: response.text, milliseconds: response.milliseconds });
    else waiting.reject(new EngineRefusal(response.message, response.problems, response.code));
  }

  #died(message: string): void {
    this.#fail(new EngineRefusal(message));
  }

  #fail(reason: Error): void {
    for (const { reject } of this.#waiting.values()) reject(reason);
    this.#waiting.clear();
  }
}

// For whoever measures (tools/bench.mjs): the whole way there and back, and the engine's part of it.
function note(start: number, engineMilliseconds: number, cures: boolean): void {
  performance.clearMeasures('duskwire check');
  performance.measure('duskwire check', { start, end: performance.now(), detail: { engineMilliseconds, cures } });
}

export const startChannel = (): Channel => new Channel(new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' }));

/** The engine in workers: one for answers at once, one, started when it is needed, for the search of cures. */
export function startEngine(start: () => Channel = startChannel): Engine {
  return new WorkerEngine(start);
}

class WorkerEngine implements Engine {
  #start: () => Channel;
  #quick: Channel;
  #kept: JobDocument | undefined;
  #patient: Channel | undefined;
  #stock: Promise<CatalogueFile> | undefined;
  #rulesets: Promise<readonly RulesetFile[]> | undefined;

  constructor(start: () => Channel) {
    this.#start = start;
    this.#quick = start();
  }

  async check(document: JobDocument, options: { readonly cures: boolean }): Promise<Timed<CheckAnswer>> {
    const start = performance.now();
    const { value, milliseconds } = await (options.cures
      ? this.#freePatient().call('check', [JSON.stringify(document), JSON.stringify(options)])
      : this.#checkQuickly(document, JSON.stringify(options)));
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

  calibrate(document: JobDocument, view: string): Promise<CalibrationAnswer> {
    return this.#quick.call('calibrate', [JSON.stringify(document), view]).then(({ value }) => JSON.parse(value) as CalibrationAnswer);
  }

  photometry(question: PhotometryQuestion): Promise<PhotometryAnswer> {
    return this.#ask('photometry', question);
  }

  exportTexts(document: JobDocument): Promise<readonly ExportText[]> {
    return this.#ask('export_texts', document);
  }

  stock(): Promise<CatalogueFile> {
    return (this.#stock ??= this.#keep(() => (this.#stock = undefined), this.#ask<CatalogueFile>('stock')));
  }

  rulesets(): Promise<readonly RulesetFile[]> {
    return (this.#rulesets ??= this.#keep(() => (this.#rulesets = undefined), this.#ask<readonly RulesetFile[]>('rulesets')));
  }

  // The engine keeps the last document: of the next one only what differs is sent. Where that does not fit (the engine
  // refused the one before, say), the whole is sent.
  async #checkQuickly(document: JobDocument, options: string): Promise<Timed<string>> {
    const parts = this.#kept && changedParts(this.#kept, document);
    this.#kept = document;
    if (parts) {
      try {
        return await this.#quick.call('check_changed', [JSON.stringify(parts), options]);
      } catch (error) {
        if (!(error instanceof EngineRefusal) || error.code !== 'not_found') throw error;
      }
    }
    return this.#quick.call('check_and_keep', [JSON.stringify(document), options]);
  }

  // A search that nobody waits for any more cannot be told to stop: its worker goes, a new one comes.
  #freePatient(): Channel {
    if (this.#patient?.busy) {
      this.#patient.end(new Superseded('The job has changed since.'));
      this.#patient = undefined;
    }
    return (this.#patient ??= this.#start());
  }

  // What failed is asked anew next time.
  #keep<T>(forget: () => void, answer: Promise<T>): Promise<T> {
    answer.catch(forget);
    return answer;
  }

  async #ask<T>(verb: string, ...given: readonly unknown[]): Promise<T> {
    const { value } = await this.#quick.call(verb, given.map((part) => JSON.stringify(part)));
    return JSON.parse(value) as T;
  }
}
