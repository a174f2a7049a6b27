// SPDX-License-Identifier: Apache-2.0
// All points that the plan draws, to fit it on the screen.
import type { JobDocument, Point2 } from '../job/document';
import { placeOf, thingsOf } from '../job/lookup';

export function extentOf(job: JobDocument): Point2[] {
  const points: Point2[] = [...(job.plan?.property_line ?? [])];
  const corner = job.plan?.underlay?.origin;
  // A job that begins on a picture has it centred on the site's origin; its size is known only once it is loaded.
  if (corner) points.push(corner, [-corner[0], -corner[1]]);
  for (const thing of thingsOf(job)) {
    if (thing.kind === 'area') points.push(...thing.value.outline);
    if (thing.kind === 'cable' || thing.kind === 'sleeve') points.push(...(thing.value.path ?? []));
    const place = placeOf(thing);
    if (place) points.push(place);
  }
  return points;
}
