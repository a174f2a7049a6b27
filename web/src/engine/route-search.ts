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
  /** The first wiring that was found, and today's figures; comes while the search goes on. */
  readonly onfirst: (answer: RouteAnswer) => void;
  /** The search is over; the answer is being checked. */
  readonly onchecking: () => void;
  readonly now?: () => number;
}

export async function searchRoute(planner: Planner, document: JobDocument, request: RouteRequest, watch: SearchWatch): Promise<RouteAnswer> {
  const now = watch.now ?? (() => performance.now());
  const start = now();
  const tell = (progress: RouteProgress): RouteProgress => {
    watch.onprogress(progress, now() - start);
    return progress;
  };
  let progress = tell(await planner.begin(document, request));
  let shown = false;
  while (progress.more && !watch.stopped()) {
    const left = watch.longestMilliseconds - (now() - start);
    if (left <= 0) break;
    progress = tell(await planner.search(Math.min(sliceMilliseconds, left)));
    if (!shown && progress.cost_minor > 0 && progress.more && !watch.stopped()) {
      shown = true;
      watch.onfirst(await planner.answer());
    }
  }
  watch.onchecking();
  return planner.answer();
}
