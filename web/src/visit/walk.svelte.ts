// SPDX-License-Identifier: Apache-2.0
// What is walked of a garden without a plan: runs with the ways that a locator followed, amperes, what went dark. Each
// tap is kept on this device at once; asked for its wiring, the walk goes into the visit's log and with the job.
import type { Traced, TraceRequest } from '../engine/trace';
import { difference } from '../job/difference';
import type { JobDocument, Point2 } from '../job/document';
import { isLogged } from '../job/visit';
import { visitsOf } from '../job/visit-log';
import type { WalkedRun } from '../job/walk';
import type { JobSession } from '../session/job-session.svelte';

/** Lamps on the plan that hang on nothing. */
export function unwiredLamps(job: JobDocument): readonly string[] {
  const wired = new Set((job.cables ?? []).flatMap(({ from, to }) => [from, to]));
  return (job.luminaires ?? []).filter(({ id, joint, position }) => position && !joint && !wired.has(id)).map(({ id }) => id);
}

const keyOf = (visit: string): string => `duskwire-walk-${visit}`;

function draftOf(visit: string): readonly WalkedRun[] | undefined {
  try {
    const text = localStorage.getItem(keyOf(visit));
    return text === null ? undefined : (JSON.parse(text) as readonly WalkedRun[]);
  } catch {
    return undefined;
  }
}

/** What a tap on the plan or a number means. */
export type Doing = 'way' | 'amps' | 'clamp' | 'lifted';

export class Walk {
  readonly #session: JobSession;
  readonly visit: string;
  runs: readonly WalkedRun[] = $state.raw([]);
  /** Its number in `runs`. */
  chosen = $state(0);
  /** The next point begins a branch. */
  branching = $state(false);
  doing: Doing = $state('way');
  /** Where on the way the clamp is held whose amperes are yet to be typed. */
  clampAt: Point2 | undefined = $state.raw();
  traced: Traced | undefined = $state.raw();
  busy = $state(false);
  failure: string | undefined = $state();

  constructor(session: JobSession, visit: string) {
    this.#session = session;
    this.visit = visit;
    const logged = visitsOf(session.document).filter(isLogged).find(({ id }) => id === visit)?.walk;
    this.runs = draftOf(visit) ?? logged ?? [];
    if (this.runs.length === 0) this.addRun();
    this.chosen = 0;
  }

  get run(): WalkedRun | undefined {
    return this.runs[this.chosen];
  }

  get outputs(): readonly string[] {
    return (this.#session.document.transformers ?? []).flatMap(({ outputs }) => outputs.map(({ id }) => id));
  }

  choose(at: number): void {
    this.chosen = at;
    this.branching = false;
    this.clampAt = undefined;
  }

  do(doing: Doing): void {
    this.doing = doing;
    this.clampAt = undefined;
  }

  /** A tap on the plan. */
  take(at: Point2): void {
    if (this.doing === 'way') this.point(at);
    else if (this.doing === 'clamp') this.clampAt = at;
  }

  addRun(): void {
    const output = this.outputs[Math.min(this.runs.length, this.outputs.length - 1)] ?? '';
    const taken = new Set(this.runs.map(({ id }) => id));
    let number = this.runs.length + 1;
    while (taken.has(`R${number}`)) number += 1;
    this.#set([...this.runs, { id: `R${number}`, output, ways: [] }]);
    this.choose(this.runs.length - 1);
    this.do('way');
  }

  removeRun(): void {
    this.#set(this.runs.filter((_, at) => at !== this.chosen));
    this.choose(0);
    if (this.runs.length === 0) this.addRun();
  }

  change(part: Partial<WalkedRun>): void {
    this.#set(this.runs.map((run, at) => (at === this.chosen ? { ...run, ...part } : run)));
  }

  /** A point further on: of the way that is being walked, or of a new one. */
  point(at: Point2): void {
    const { run } = this;
    if (!run) return;
    const place: Point2 = [Math.round(at[0] * 100) / 100, Math.round(at[1] * 100) / 100];
    const last = run.ways.at(-1);
    if (!last || this.branching) this.change({ ways: [...run.ways, { path: [last ? nearestOf(run, place) : this.#start(run, place), place] }] });
    else this.change({ ways: [...run.ways.slice(0, -1), { path: [...last.path, place] }] });
    this.branching = false;
  }

  takeBack(): void {
    const { run } = this;
    const last = run?.ways.at(-1);
    if (!run || !last) return;
    // The first point of a way is not one's own: a way of two goes as a whole.
    const ways = last.path.length > 2 ? [...run.ways.slice(0, -1), { path: last.path.slice(0, -1) }] : run.ways.slice(0, -1);
    this.change({ ways });
  }

  clamp(at: Point2, amps: number): void {
    this.change({ clamps: [...(this.run?.clamps ?? []), { at, current_a: amps }] });
  }

  /** Lifted: a lamp goes from unknown to dark, to lit, to unknown. */
  turn(lamp: string): void {
    const { run } = this;
    if (!run) return;
    const dark = run.went_dark ?? [];
    const lit = run.stayed_lit ?? [];
    if (dark.includes(lamp)) this.change({ went_dark: dark.filter((id) => id !== lamp), stayed_lit: [...lit, lamp] });
    else if (lit.includes(lamp)) this.change({ stayed_lit: lit.filter((id) => id !== lamp) });
    else this.change({ went_dark: [...dark, lamp] });
  }

  restStayedLit(lamps: readonly string[]): void {
    const dark = new Set(this.run?.went_dark);
    this.change({ stayed_lit: lamps.filter((id) => !dark.has(id)) });
  }

  async trace(): Promise<void> {
    const document = this.#session.document;
    const walked = this.runs.filter(({ ways }) => ways.length > 0);
    this.busy = true;
    this.failure = undefined;
    try {
      await this.#session.log.write(this.visit, { kind: 'facts', facts: { walk: this.runs } });
      const index = visitsOf(document).findIndex(({ id }) => id === this.visit);
      const request: TraceRequest = { runs: walked, ...(index >= 0 && { visit: index }) };
      this.traced = await this.#session.locate.trace(document, request);
    } catch (error) {
      this.traced = undefined;
      this.failure = error instanceof Error ? error.message : String(error);
    } finally {
      this.busy = false;
    }
  }

  /** The rough network into the plan, as one step that can be undone. */
  async draw(): Promise<void> {
    const { traced } = this;
    const { engine, store } = this.#session;
    if (!traced) return;
    const before = await engine.applyChanges(store.document, []);
    store.run({ label: 'Wiring traced', changes: difference(before, { ...traced.job, ...(before.visits && { visits: before.visits }) }) });
    this.traced = undefined;
  }

  #start(run: WalkedRun, fallback: Point2): Point2 {
    const transformer = (this.#session.document.transformers ?? []).find(({ outputs }) => outputs.some(({ id }) => id === run.output));
    return transformer?.position ?? fallback;
  }

  #set(runs: readonly WalkedRun[]): void {
    this.runs = runs;
    this.traced = undefined;
    this.failure = undefined;
    try {
      localStorage.setItem(keyOf(this.visit), JSON.stringify(runs));
    } catch {
      // It still goes into the log once its wiring is asked for.
    }
  }
}

/** Where on the ways walked a point is nearest to. */
export function nearestOf(run: WalkedRun, to: Point2): Point2 {
  let best: Point2 = to;
  let bestM = Infinity;
  for (const { path } of run.ways) {
    for (let k = 1; k < path.length; k += 1) {
      const [a, b] = [path[k - 1]!, path[k]!];
      const way: Point2 = [b[0] - a[0], b[1] - a[1]];
      const square = way[0] ** 2 + way[1] ** 2;
      const share = square > 0 ? Math.min(1, Math.max(0, ((to[0] - a[0]) * way[0] + (to[1] - a[1]) * way[1]) / square)) : 0;
      const at: Point2 = [a[0] + share * way[0], a[1] + share * way[1]];
      const offM = Math.hypot(at[0] - to[0], at[1] - to[1]);
      if (offM < bestM) [best, bestM] = [at, offM];
    }
  }
  return best;
}

export const walkedM = (run: WalkedRun): number =>
  run.ways.reduce((sum, { path }) => sum + path.slice(1).reduce((m, p, k) => m + Math.hypot(p[0] - path[k]![0], p[1] - path[k]![1]), 0), 0);
