// SPDX-License-Identifier: Apache-2.0
// The planner of an open job: what is held fast, the search and what it has found. It outlives the view that shows it,
// so that looking at the plan in between loses nothing. The job itself changes by `accept` only, in one step of undo.
import { searchRoute } from '../engine/route-search';
import type { Planner } from '../engine/planner';
import type { Report } from '../engine/report';
import type { RouteAnswer, RouteProgress } from '../engine/route';
import { difference, equal } from '../job/difference';
import type { JobDocument } from '../job/document';
import { applyOperations, type Operation } from '../job/operations';
import type { JobSession } from './job-session.svelte';
import { byId, bySubject } from './live.svelte';
import { noWishes, requestOf, type Wishes } from './wishes';

/** The best cost at a moment of the search. */
export interface TracePoint {
  readonly milliseconds: number;
  readonly costMinor: number;
}

export type Phase = 'waiting' | 'searching' | 'checking' | 'done' | 'failed';

export type PlannedJob = Pick<JobSession, 'document' | 'engine' | 'store'>;

const quietMilliseconds = 2000;

export class Planning {
  wishes: Wishes = $state.raw(noWishes);
  phase: Phase = $state('waiting');
  progress: RouteProgress | undefined = $state.raw();
  milliseconds = $state(0);
  /** The search's own account of the best cost, as it fell. */
  trace: readonly TracePoint[] = $state.raw([]);
  /** What that account leaves out (the lights, say), known from the last look in full; undefined before the first. */
  besideMinor: number | undefined = $state();
  answer: RouteAnswer | undefined = $state.raw();
  /** The job as it would be once the plan is accepted; undefined where nothing sound was found. */
  planned: JobDocument | undefined = $state.raw();
  /** Its check, as the live answer has today's. */
  report: Report | undefined = $state.raw();
  /** Why there is no answer. */
  failure: string | undefined = $state();
  stopping = $state(false);
  /** For a screen reader: the progress now and then. */
  spoken = $state('');
  /** The job as it was when the search began. */
  of: JobDocument | undefined = $state.raw();
  /** The wishes that the answer stands on. */
  asked: Wishes | undefined = $state.raw();

  lamps = $derived(byId(this.report?.lamps));
  transformers = $derived(byId(this.report?.transformers));
  findingsOf = $derived(bySubject(this.report?.findings));

  #session: PlannedJob;
  #planner: Planner;
  #now: () => number;
  #say: (progress: RouteProgress, bestMinor: number | undefined) => string;
  #spokenAt = -Infinity;
  #run = 0;
  // What leads from the job as it was to the planned one.
  #changes: readonly Operation[] = [];

  constructor(session: PlannedJob, planner: Planner, say: (progress: RouteProgress, bestMinor: number | undefined) => string, now: () => number = () => performance.now()) {
    this.#session = session;
    this.#planner = planner;
    this.#say = say;
    this.#now = now;
  }

  get searching(): boolean {
    return this.phase === 'searching' || this.phase === 'checking';
  }

  /** The whole cost of the best so far; undefined where none is known yet. */
  get bestMinor(): number | undefined {
    const cost = this.progress?.cost_minor ?? 0;
    return cost > 0 && this.besideMinor !== undefined ? cost + this.besideMinor : undefined;
  }

  /** The job is no longer the one that was planned. */
  get stale(): boolean {
    const { document } = this.#session;
    return this.of !== undefined && this.of !== document && !equal(this.of, document);
  }

  get acceptable(): boolean {
    return this.phase === 'done' && this.planned !== undefined && !this.stale;
  }

  /** While nothing is searched for and nothing found: the first wiring of the search to come is then there at once. */
  warm(): void {
    if (this.phase === 'waiting') this.#planner.warm(this.#session.document);
  }

  /** Plans the job as it is now. */
  async start(): Promise<void> {
    if (this.searching) return;
    const run = ++this.#run;
    const { document } = this.#session;
    const { wishes } = this;
    this.#clear();
    this.phase = 'searching';
    this.of = document;
    this.asked = wishes;
    const mine = (): boolean => run === this.#run;
    try {
      // Today's side through the engine's writer as well, so that its spelling of untouched parts makes no difference.
      const before = await this.#session.engine.applyChanges(document, []);
      const answer = await searchRoute(this.#planner, document, requestOf(document, wishes), {
        longestMilliseconds: wishes.seconds * 1000,
        stopped: () => this.stopping || !mine(),
        onprogress: (progress, milliseconds) => mine() && this.#take(progress, milliseconds),
        onfound: (found) => mine() && this.#show(found, document, before),
        onchecking: () => mine() && (this.phase = 'checking'),
        now: this.#now,
      });
      if (!mine()) return;
      this.#show(answer, document, before);
      this.phase = 'done';
    } catch (error) {
      if (!mine()) return;
      this.failure = error instanceof Error ? error.message : String(error);
      this.phase = 'failed';
    } finally {
      if (mine()) this.stopping = false;
    }
  }

  /** Ends the search after the present slice; the best so far stays. */
  stop(): void {
    if (this.phase === 'searching') this.stopping = true;
  }

  /** The planned job takes the place of today's, as one step of undo. */
  accept(): void {
    if (!this.acceptable) return;
    this.#session.store.run({ label: 'Planned wiring', changes: this.#changes });
    this.forget();
  }

  /** Today's wiring stays; what was found goes, what is held fast is remembered. */
  forget(): void {
    this.#run += 1;
    this.#planner.end();
    this.#clear();
    this.stopping = false;
    this.phase = 'waiting';
  }

  #clear(): void {
    this.answer = undefined;
    this.planned = undefined;
    this.#changes = [];
    this.report = undefined;
    this.progress = undefined;
    this.failure = undefined;
    this.of = undefined;
    this.asked = undefined;
    this.trace = [];
    this.besideMinor = undefined;
    this.milliseconds = 0;
    this.spoken = '';
    this.#spokenAt = -Infinity;
  }

  #take(progress: RouteProgress, milliseconds: number): void {
    this.progress = progress;
    this.milliseconds = milliseconds;
    const costMinor = progress.cost_minor;
    const last = this.trace.at(-1);
    if (costMinor > 0 && costMinor !== last?.costMinor) this.trace = [...this.trace, { milliseconds, costMinor }];
    if (milliseconds - this.#spokenAt < quietMilliseconds) return;
    this.#spokenAt = milliseconds;
    this.spoken = this.#say(progress, this.bestMinor);
  }

  #show(answer: RouteAnswer, document: JobDocument, before: JobDocument): void {
    this.answer = answer;
    this.#changes = answer.job ? difference(before, answer.job) : [];
    const counted = this.progress?.cost_minor ?? 0;
    if (answer.job && counted > 0) this.besideMinor = answer.planned.cost.cost_minor - counted;
    const planned = answer.job ? applyOperations(document, this.#changes).document : undefined;
    this.planned = planned;
    if (!planned) {
      this.report = undefined;
      return;
    }
    // The volts of the planned lamps come a moment later; without them the lamps are drawn as not computed.
    this.#session.engine.check(planned, { cures: false }).then(
      ({ value }) => {
        if (this.planned === planned) this.report = value.report;
      },
      () => undefined,
    );
  }
}
