// SPDX-License-Identifier: Apache-2.0
// Where a press on the photograph lies in the garden: on the frontmost surface there, on a tree's upright cut-out, and
// where nothing is outlined on the ground.
import type { Camera } from '../engine/calibration';
import type { Point3, View } from '../job/document';
import { siteFromPixel, type Plane } from './camera';
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
