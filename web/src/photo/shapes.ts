// SPDX-License-Identifier: Apache-2.0
// Outlines on the photograph: what lies inside, which corner or edge is near, and four corners put into their order.
import type { View } from '../job/document';
import type { MarkList } from '../job/edits/views';
import type { Pixel } from './stage-frame';

export interface MarkRef {
  /** The two walls that fix the camera are no lists: the known one, and the far edge of the one beside it. */
  readonly list: MarkList | 'wall' | 'adjoining';
  /** Empty for those walls. */
  readonly id: string;
}

export const sameMark = (a: MarkRef | undefined, b: MarkRef | undefined): boolean => a?.list === b?.list && a?.id === b?.id;

const apart = (a: Pixel, b: Pixel): number => Math.hypot(a[0] - b[0], a[1] - b[1]);

/** Even-odd rule; the outline closes by itself. */
export function inside(outline: readonly Pixel[], [x, y]: Pixel): boolean {
  let within = false;
  outline.forEach(([x1, y1], index) => {
    const [x2, y2] = outline[(index + 1) % outline.length]!;
    if (y1 > y !== y2 > y && x < x1 + ((y - y1) / (y2 - y1)) * (x2 - x1)) within = !within;
  });
  return within;
}

/** The nearest corner within reach. */
export function cornerAt(points: readonly Pixel[], at: Pixel, reach: number): number | undefined {
  let best: number | undefined;
  points.forEach((point, index) => {
    if (apart(point, at) <= reach && (best === undefined || apart(point, at) < apart(points[best]!, at))) best = index;
  });
  return best;
}

/** Four corners as the job keeps them: bottom left, bottom right, top right, top left, in whatever order they came. */
export function wallCorners(points: readonly Pixel[]): readonly Pixel[] {
  const byX = [...points].sort((a, b) => a[0] - b[0]);
  const upDown = (pair: readonly Pixel[]): readonly Pixel[] => [...pair].sort((a, b) => b[1] - a[1]);
  const [bottomLeft, topLeft] = upDown(byX.slice(0, 2));
  const [bottomRight, topRight] = upDown(byX.slice(2));
  return [bottomLeft!, bottomRight!, topRight!, topLeft!];
}

/** Two places of an upright edge, the lower first, in whatever order they came. */
export const upEdge = (points: readonly Pixel[]): readonly Pixel[] => [...points].sort((a, b) => b[1] - a[1]);

/** Which end of the known wall the second one meets: the nearer on the picture. */
export const meetsLeft = (corners: readonly Pixel[], far: readonly Pixel[]): boolean => apart(corners[0]!, far[0]!) < apart(corners[1]!, far[0]!);

/** The outline of the second wall: lower left, lower right, upper right, upper left as seen on the picture. */
export function adjoiningOutline(corners: readonly Pixel[], far: readonly Pixel[]): readonly Pixel[] {
  if (corners.length !== 4 || far.length !== 2) return [];
  return meetsLeft(corners, far) ? [far[0]!, corners[0]!, corners[3]!, far[1]!] : [corners[1]!, far[0]!, far[1]!, corners[2]!];
}

/** The points of a mark that a hand can move. */
export function pointsOf(view: View, ref: MarkRef): readonly Pixel[] {
  if (ref.list === 'wall') return view.calibration?.wall?.corners_px ?? [];
  if (ref.list === 'adjoining') return view.calibration?.adjoining_px ?? [];
  const mark = (view[ref.list] as readonly { readonly id: string; readonly outline_px?: readonly Pixel[]; readonly from_px?: Pixel; readonly to_px?: Pixel }[] | undefined)?.find(({ id }) => id === ref.id);
  if (!mark) return [];
  return mark.outline_px ?? (mark.from_px && mark.to_px ? [mark.from_px, mark.to_px] : []);
}

/** The frontmost mark under a place: measures and masks before trees before surfaces, later ones first. */
export function markAt(view: View, at: Pixel, reach: number): MarkRef | undefined {
  for (const measure of [...(view.measures ?? [])].reverse()) {
    if (nearSegment(at, measure.from_px, measure.to_px) <= reach) return { list: 'measures', id: measure.id };
  }
  for (const list of ['masks', 'trees', 'surfaces'] as const) {
    for (const mark of [...(view[list] ?? [])].reverse()) if (inside(mark.outline_px, at)) return { list, id: mark.id };
  }
  const wall = view.calibration?.wall;
  return wall && inside(wall.corners_px, at) ? { list: 'wall', id: '' } : undefined;
}

function nearSegment(at: Pixel, a: Pixel, b: Pixel): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const length2 = dx * dx + dy * dy || 1;
  const t = Math.min(1, Math.max(0, ((at[0] - a[0]) * dx + (at[1] - a[1]) * dy) / length2));
  return apart(at, [a[0] + t * dx, a[1] + t * dy]);
}

/** The frontmost surface that holds all of the places. */
export const surfaceUnder = (view: View, places: readonly Pixel[]): NonNullable<View['surfaces']>[number] | undefined =>
  [...(view.surfaces ?? [])].reverse().find(({ outline_px }) => places.every((place) => inside(outline_px, place)));

/** Where a tree seems to stand: the lowest of its outline. */
export const lowest = (outline: readonly Pixel[]): Pixel => outline.reduce((low, point) => (point[1] > low[1] ? point : low));
