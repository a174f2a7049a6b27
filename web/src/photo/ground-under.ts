// SPDX-License-Identifier: Apache-2.0
// Where a press on the photograph lies in the garden: on the frontmost surface there, on a tree's upright cut-out, and
// where nothing is outlined on the ground. And the other way round: whether a lamp is hidden behind what stands there.
import type { Camera } from '../engine/calibration';
import type { JobDocument, Point3, View } from '../job/document';
import { pixelFromSite, siteFromPixel, type Plane } from './camera';
import { groundPlane, isLevel } from './planes';
import { inside } from './shapes';
import type { Pixel } from './stage-frame';

export interface Spot {
  readonly place: Point3;
  readonly plane: Plane;
  /** Level ground, as against a wall, a roof or a tree. */
  readonly level: boolean;
}

export function spotUnder(view: View, camera: Camera, pixel: Pixel): Spot | undefined {
  const plane = planeUnder(view, camera, pixel);
  const place = siteFromPixel(camera, pixel, plane);
  return place && { place, plane, level: isLevel(plane.normal) };
}

function planeUnder(view: View, camera: Camera, pixel: Pixel): Plane {
  const tree = [...(view.trees ?? [])].reverse().find(({ outline_px }) => inside(outline_px, pixel));
  if (tree) {
    const [dx, dy] = [camera.position[0] - tree.foot[0], camera.position[1] - tree.foot[1]];
    const length = Math.hypot(dx, dy) || 1;
    return { onPlane: tree.foot, normal: [dx / length, dy / length, 0] };
  }
  const surface = [...(view.surfaces ?? [])].reverse().find(({ outline_px }) => inside(outline_px, pixel));
  return surface ? { onPlane: surface.on_plane, normal: surface.normal } : groundPlane;
}

// Lamps stand close to walls and a little off them.
const clearM = 0.3;
/** Of a building whose height the plan does not say: one storey (common practice, no source). */
const usualHeightM = 3;

const apart = (a: Point3, b: Point3): number => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);

/** Whether something that is outlined, or a building of the plan, stands between the camera and a place. */
export function isHidden(job: JobDocument, view: View, camera: Camera, place: Point3): boolean {
  const pixel = pixelFromSite(camera, place);
  const surface = pixel && [...(view.surfaces ?? [])].reverse().find(({ outline_px }) => inside(outline_px, pixel));
  const met = pixel && surface && siteFromPixel(camera, pixel, { onPlane: surface.on_plane, normal: surface.normal });
  if (met && apart(camera.position, met) < apart(camera.position, place) - clearM) return true;
  return (job.plan?.areas ?? []).some((area) => area.kind === 'building' && crosses(area.outline, area.height_m ?? usualHeightM, camera.position, place));
}

function crosses(outline: readonly (readonly [number, number])[], heightM: number, from: Point3, to: Point3): boolean {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const lengthM = Math.hypot(dx, dy);
  return outline.some(([x1, y1], index) => {
    const [x2, y2] = outline[(index + 1) % outline.length]!;
    const [ex, ey] = [x2 - x1, y2 - y1];
    const turn = dx * ey - dy * ex;
    if (turn === 0) return false;
    const along = ((x1 - from[0]) * ey - (y1 - from[1]) * ex) / turn;
    const onEdge = ((x1 - from[0]) * dy - (y1 - from[1]) * dx) / turn;
    const meets = along > 0 && along * lengthM < lengthM - clearM && onEdge >= 0 && onEdge <= 1;
    return meets && from[2] + along * (to[2] - from[2]) < heightM;
  });
}
