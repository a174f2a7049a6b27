// SPDX-License-Identifier: Apache-2.0
// The live answer: each change of the document asks the engine, the newest document wins, and every pane reads the
// result here. While the hand moves without cures; once it rests, with them.
import { Superseded, type CheckAnswer, type Engine, type Timed } from '../engine/client';
import { LatestWins } from '../engine/latest';
import type { CableReport, Finding, LampReport, OutputReport, Problem, Report, TransformerReport } from '../engine/report';
import type { JobDocument } from '../job/document';

const restMilliseconds = 250;

export function byId<T extends { readonly id: string }>(list: readonly T[] | undefined): ReadonlyMap<string, T> {
  return new Map((list ?? []).map((item) => [item.id, item]));
}

export function bySubject(findings: readonly Finding[] | undefined): ReadonlyMap<string, readonly Finding[]> {
  const groups = new Map<string, Finding[]>();
  for (const finding of findings ?? []) {
    const group = groups.get(finding.subject);
    if (group) group.push(finding);
    else groups.set(finding.subject, [finding]);
  }
  return groups;
}

export class LiveAnswer {
  #engine: Engine;
  #queue: LatestWins<JobDocument, Timed<CheckAnswer>>;
  #newest: JobDocument | undefined;
  #asked: JobDocument | undefined;
  #rest: ReturnType<typeof setTimeout> | undefined;
  #first: (() => Promise<void>) | undefined;

  /** The last report; of an older document while `pending`. */
  report: Report | undefined = $state.raw();
  /** What the reader found wrong with the document itself. */
  problems: readonly Problem[] = $state.raw([]);
  /** The document that `report` speaks of. */
  of: JobDocument | undefined = $state.raw();
  pending = $state(false);
  /** Whether the findings carry computed cures. */
  withCures = $state(false);
  /** Why there is no answer, in words. */
  failure: string | undefined = $state();
  milliseconds = $state(0);

  lamps: ReadonlyMap<string, LampReport> = $derived(byId(this.report?.lamps));
  cables: ReadonlyMap<string, CableReport> = $derived(byId(this.report?.cables));
  outputs: ReadonlyMap<string, OutputReport> = $derived(byId(this.report?.outputs));
  transformers: ReadonlyMap<string, TransformerReport> = $derived(byId(this.report?.transformers));
  /** Findings by the id of what they are about. */
  findingsOf: ReadonlyMap<string, readonly Finding[]> = $derived(bySubject(this.report?.findings));

  constructor(engine: Engine) {
    this.#engine = engine;
    this.#queue = new LatestWins(
      (document) => engine.check(document, { cures: false }),
      (answer, document) => this.#take(answer, document, false),
      (error) => this.#fail(error),
    );
  }

  ask(document: JobDocument): void {
    this.pending = true;
    this.#newest = document;
    clearTimeout(this.#rest);
    if (this.#first) void this.#first().then(() => this.#put());
    else this.#put();
    this.#rest = setTimeout(() => void this.#seekCures(document), restMilliseconds);
  }

  /** Something that a person waits for more than for this answer goes first, until it is let go of. */
  giveWay(first: () => Promise<void>): () => void {
    this.#first = first;
    return () => {
      if (this.#first === first) this.#first = undefined;
    };
  }

  stop(): void {
    clearTimeout(this.#rest);
  }

  // Several changes may have waited for the same thing: the newest is asked once.
  #put(): void {
    if (!this.#newest || this.#newest === this.#asked) return;
    this.#asked = this.#newest;
    this.#queue.put(this.#newest);
  }

  async #seekCures(document: JobDocument): Promise<void> {
    try {
      const answer = await this.#engine.check(document, { cures: true });
      if (document === this.#newest) this.#take(answer, document, true);
    } catch (error) {
      if (!(error instanceof Superseded)) this.#fail(error);
    }
  }

  #take({ value, milliseconds }: Timed<CheckAnswer>, document: JobDocument, cures: boolean): void {
    // A document that cannot be read keeps the last report in sight; the problems say what is wrong.
    this.report = value.report ?? this.report;
    this.problems = value.problems;
    this.of = document;
    this.pending = document !== this.#newest;
    this.withCures = cures;
    this.failure = undefined;
    if (!cures) this.milliseconds = milliseconds;
  }

  #fail(error: unknown): void {
    this.pending = false;
    this.failure = error instanceof Error ? error.message : String(error);
  }
}
