// SPDX-License-Identifier: Apache-2.0
// Cables as they lie: the route of each, and what hangs on a thing.
import type { Cable, JobDocument, Point2, Polyline } from '../document';
import { endsOf } from '../lookup';

/** The route of a cable; straight from end to end where none was drawn. Fewer than two points: an end has no place. */
export function routeOf(cable: Cable, ends: ReadonlyMap<string, Point2 | undefined>): Polyline {
  if (cable.path && cable.path.length > 1) return cable.path;
  const from = ends.get(cable.from);
  const to = ends.get(cable.to);
  return from && to ? [from, to] : [];
}

export function routesOf(job: JobDocument): ReadonlyMap<string, Polyline> {
  const ends = endsOf(job);
  return new Map((job.cables ?? []).map((cable) => [cable.id, routeOf(cable, ends)]));
}

export const cablesAt = (job: JobDocument, id: string): readonly Cable[] =>
  (job.cables ?? []).filter(({ from, to }) => from === id || to === id);

/** Ids that a cable may end at and that belong to one thing: a transformer's are its outputs'. */
export function endIdsOf(job: JobDocument, kind: string, id: string): readonly string[] {
  if (kind === 'transformer') return job.transformers?.find((one) => one.id === id)?.outputs.map((output) => output.id) ?? [];
  return kind === 'luminaire' || kind === 'joint' || kind === 'output' ? [id] : [];
}
