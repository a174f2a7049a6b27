// SPDX-License-Identifier: Apache-2.0
// From the garden to the photograph and back, by the camera that the engine found: where a lamp stands on the picture,
// where a tap on the picture lies in the garden. The engine alone finds cameras and computes light.
import type { Camera } from '../engine/calibration';
import type { Point3 } from '../job/document';
import type { Pixel } from './stage-frame';

/** A plane: some point of it and which way it faces. */
export interface Plane {
  readonly onPlane: Point3;
  readonly normal: Point3;
}

const dot = (a: Point3, b: Point3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const minus = (a: Point3, b: Point3): Point3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];

/** Undefined where the place lies behind the camera. */
export function pixelFromSite(camera: Camera, place: Point3): Pixel | undefined {
  const way = minus(place, camera.position);
  const [x, y, z] = camera.axes.map((axis) => dot(axis, way)) as [number, number, number];
  if (!(z > 1e-6)) return undefined;
  return [camera.principal_point_px[0] + (camera.focal_px * x) / z, camera.principal_point_px[1] + (camera.focal_px * y) / z];
}

/** The way in which an element of the picture looks; its length is 1. */
export function wayFromPixel(camera: Camera, [px, py]: Pixel): Point3 {
  const x = (px - camera.principal_point_px[0]) / camera.focal_px;
  const y = (py - camera.principal_point_px[1]) / camera.focal_px;
  const [right, down, ahead] = camera.axes;
  const way: Point3 = [right[0] * x + down[0] * y + ahead[0], right[1] * x + down[1] * y + ahead[1], right[2] * x + down[2] * y + ahead[2]];
  const length = Math.hypot(...way);
  return [way[0] / length, way[1] / length, way[2] / length];
}

/** Where the line of sight of an element meets a plane; undefined where it does not, or behind the camera. */
export function siteFromPixel(camera: Camera, pixel: Pixel, { onPlane, normal }: Plane): Point3 | undefined {
  const way = wayFromPixel(camera, pixel);
  const against = dot(way, normal);
  if (Math.abs(against) < 1e-9) return undefined;
  const distance = dot(minus(onPlane, camera.position), normal) / against;
  if (!(distance > 0)) return undefined;
  return [camera.position[0] + way[0] * distance, camera.position[1] + way[1] * distance, camera.position[2] + way[2] * distance];
}

/** How many metres of a plane square to the line of sight one element covers at that place. */
export function metresPerPixel(camera: Camera, place: Point3): number {
  return dot(camera.axes[2], minus(place, camera.position)) / camera.focal_px;
}
