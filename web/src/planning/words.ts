// SPDX-License-Identifier: Apache-2.0
// What is said of a search and of its outcome, in sentences.
import type { RouteAnswer, RouteProgress } from '../engine/route';
import type { JobDocument } from '../job/document';
import { findThing, nameOf, type ThingKind } from '../job/lookup';
import { moneyText } from '../units/money';
import { quantityText, type UnitSystem } from '../units/quantity';

export const currencyOf = (job: JobDocument): string => job.site.currency ?? 'USD';

export const plural = (count: number, one: string, many: string): string => `${count} ${count === 1 ? one : many}`;

/** "Pond, far bank (F5)", or the bare id. */
export function nameIn(job: JobDocument, id: string, kind?: ThingKind): string {
  const thing = findThing(job, id, kind);
  if (!thing) return id;
  const name = nameOf(thing);
  return name === id ? id : `${name} (${id})`;
}

/** Rounded to whole units of money: the search reckons to the cent, the trench does not. */
export const roundMoney = (minor: number, currency: string): string => moneyText(Math.round(minor), currency);

export function progressSentence(progress: RouteProgress, bestMinor: number | undefined, currency: string, units: UnitSystem): string {
  if (bestMinor === undefined) return `Searching. ${progress.lamps_placed} of ${plural(progress.lamps, 'lamp', 'lamps')} placed, no sound wiring yet.`;
  return `Best so far ${roundMoney(bestMinor, currency)}, ${quantityText(progress.trench_m, 'length', units, 0)} of trench, ${plural(progress.joints, 'joint', 'joints')}.`;
}

export interface Verdict {
  readonly words: string;
  readonly kind: 'gain' | 'level' | 'none';
}

/** One sentence on what was found, in the order that a contractor decides by: is it sound, what does it save. */
export function verdictOf({ job, today, planned, obstacles }: RouteAnswer, currency: string): Verdict {
  if (!job) {
    return { kind: 'none', words: obstacles.length === 0 ? 'No sound wiring was found in this time. Give it longer, or hold less fast.' : 'No sound wiring was found. This is what stands in the way.' };
  }
  if (!today.wired) return { kind: 'gain', words: `Every lamp is fed and inside its window, for ${roundMoney(planned.cost.cost_minor, currency)} installed. Today not every lamp is fed, so the costs cannot be compared.` };
  const saved = today.cost.cost_minor - planned.cost.cost_minor;
  const share = today.cost.cost_minor > 0 ? ` (${Math.abs((100 * saved) / today.cost.cost_minor).toFixed(1)} %)` : '';
  const cleared = today.errors - planned.errors;
  const errors = cleared > 0 ? `, and ${plural(cleared, 'error is', 'errors are')} gone` : '';
  if (Math.round(saved) > 0) return { kind: 'gain', words: `The planned wiring costs ${roundMoney(saved, currency)} less to put in${share}${errors}.` };
  if (cleared > 0) return { kind: 'gain', words: `${plural(cleared, 'error is', 'errors are')} gone. The planned wiring costs ${roundMoney(-saved, currency)} more to put in${share}.` };
  if (Math.round(saved) === 0) return { kind: 'level', words: 'The planned wiring costs the same as today’s. There is nothing to gain by it.' };
  return { kind: 'level', words: `Nothing cheaper was found: the planned wiring costs ${roundMoney(-saved, currency)} more than today’s.` };
}

/** How far the plan may be from the cheapest at all; undefined where no limit is known. */
export function boundWords({ job, planned, bound_minor: bound }: RouteAnswer, currency: string): string | undefined {
  if (!job || !(bound > 0)) return undefined;
  const above = Math.max(0, (100 * (planned.cost.cost_minor - bound)) / bound);
  return `No wiring on the same ways can cost less than ${roundMoney(bound, currency)}. The planned one is at most ${above.toFixed(1)} % above that.`;
}
