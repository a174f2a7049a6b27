// SPDX-License-Identifier: Apache-2.0
// A search as a row of short slices, so that it can be watched and stopped: begin, search on while there is time and
// something to gain, then the answer. What a stop finds is the best so far.
import type { JobDocument } from '../job/document';
import type { Planner } from './planner';
import type { RouteAnswer, RouteProgress, RouteRequest } from './route';

/** Short enough to stop at once, long enough that the talk with the worker costs nothing. */
export const sliceMilliseconds = 120;

export interface SearchWatch {
  readonly longestMilliseconds: number;
  readonly stopped: () => boolean;
  readonly onprogress: (progress: RouteProgress, milliseconds: number) => void;
  /** The best so far beside today's wiring, now and then while the search goes on. */
  readonly onfound: (answer: RouteAnswer) => void;
  /** The search is over; the answer is being checked. */
  readonly onchecking: () => void;
  readonly now?: () => number;
}

// A look at the best so far takes time from the search: a tenth of it at most, a quarter until the full check has found
// one sound.
const quiet = { milliseconds: 2000, times: 9 };
const quietBeforeSound = { milliseconds: 400, times: 3 };

export async function searchRoute(planner: Planner, document: JobDocument, request: RouteRequest, watch: SearchWatch): Promise<RouteAnswer> {
  const now = watch.now ?? (() => performance.now());
  const start = now();
  const tell = (progress: RouteProgress): RouteProgress => {
    watch.onprogress(progress, now() - start);
    return progress;
  };
  let progress = tell(await planner.begin(document, request));
  let lookAgain = -Infinity;
  let seenMinor = 0;
  while (progress.more && !watch.stopped()) {
    const left = watch.longestMilliseconds - (now() - start);
    if (left <= 0) break;
    progress = tell(await planner.search(Math.min(sliceMilliseconds, left)));
    const better = progress.cost_minor > 0 && progress.cost_minor !== seenMinor;
    if (!better || !progress.more || watch.stopped() || now() < lookAgain) continue;
    seenMinor = progress.cost_minor;
    const asked = now();
    const found = await planner.answer();
    watch.onfound(found);
    const { milliseconds, times } = found.job ? quiet : quietBeforeSound;
    lookAgain = now() + Math.max(milliseconds, times * (now() - asked));
  }
  watch.onchecking();
  return planner.answer();
}
