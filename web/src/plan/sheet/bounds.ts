// SPDX-License-Identifier: Apache-2.0
// What of a job has to come onto the sheet.
import type { JobDocument } from '../../job/document';
import { extentOf } from '../extent';
import type { Bounds } from './scales';

/** A job with nothing drawn gets a garden's size, so that its sheet is a sheet. */
const emptyGarden: Bounds = { leftM: -15, rightM: 15, bottomM: -10, topM: 10 };

export function boundsOf(job: JobDocument): Bounds {
  const points = extentOf(job);
  for (const { position: [x, y], crown_width_m = 0 } of job.plan?.trees ?? []) {
    points.push([x - crown_width_m / 2, y - crown_width_m / 2], [x + crown_width_m / 2, y + crown_width_m / 2]);
  }
  if (points.length === 0) return emptyGarden;
  const bounds = { leftM: Infinity, rightM: -Infinity, bottomM: Infinity, topM: -Infinity };
  for (const [x, y] of points) {
    bounds.leftM = Math.min(bounds.leftM, x);
    bounds.rightM = Math.max(bounds.rightM, x);
    bounds.bottomM = Math.min(bounds.bottomM, y);
    bounds.topM = Math.max(bounds.topM, y);
  }
  return bounds;
}
