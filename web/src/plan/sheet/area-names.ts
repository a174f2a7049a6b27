// SPDX-License-Identifier: Apache-2.0
// Names of areas inside their outlines, where a copy in black and white has no colour to tell lawn from paving. A name
// stands where it covers no mark and no label, and no line if that can be; where an area has no such place it goes
// without.
import { pointsAlong, type Point } from './crowd';

export interface NamedArea {
  readonly id: string;
  readonly text: string;
  readonly outline: readonly Point[];
}

export interface AreaName {
  readonly id: string;
  readonly text: string;
  readonly x: number;
  readonly y: number;
  /** Along the height of a narrow area. */
  readonly upright: boolean;
}

export interface Taken {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

const steps = 24;

export function areaNames(areas: readonly NamedArea[], taken: readonly Taken[], sizeOf: (text: string) => { width: number; height: number }, lines: readonly (readonly Point[])[] = []): AreaName[] {
  const withLines = [...taken, ...lines.flatMap(pointsAlong).map(([x, y]) => ({ x, y, width: 1, height: 1 }))];
  return areas.flatMap((area, index) => {
    const over = areas.slice(index + 1);
    const size = sizeOf(area.text);
    for (const avoided of [withLines, taken]) {
      for (const upright of [false, true]) {
        const [width, height] = upright ? [size.height, size.width] : [size.width, size.height];
        const place = bestPlace(area, over, avoided, width, height);
        if (place) return [{ id: area.id, text: area.text, x: place[0], y: place[1], upright }];
      }
    }
    return [];
  });
}

// Of the free places of a grid the one nearest to the middle.
function bestPlace(area: NamedArea, over: readonly NamedArea[], taken: readonly Taken[], width: number, height: number): Point | undefined {
  const xs = area.outline.map(([x]) => x);
  const ys = area.outline.map(([, y]) => y);
  const [left, right, top, bottom] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  if (right - left < width || bottom - top < height) return undefined;
  const middle: Point = [(left + right) / 2, (top + bottom) / 2];
  let best: Point | undefined;
  for (let i = 0; i <= steps; i += 1) {
    for (let k = 0; k <= steps; k += 1) {
      const x = left + width / 2 + ((right - left - width) * i) / steps;
      const y = top + height / 2 + ((bottom - top - height) * k) / steps;
      if (best && far(middle, x, y) >= far(middle, ...best)) continue;
      const samples = samplesOf(x, y, width, height);
      if (!samples.every((point) => inside(area.outline, point))) continue;
      if (over.some(({ outline }) => samples.some((point) => inside(outline, point)))) continue;
      if (taken.some((other) => Math.abs(other.x - x) < (other.width + width) / 2 && Math.abs(other.y - y) < (other.height + height) / 2)) continue;
      best = [x, y];
    }
  }
  return best;
}

const far = ([x, y]: Point, toX: number, toY: number): number => Math.hypot(toX - x, toY - y);

// Corners and middle line of the name: enough for outlines of gardens.
function samplesOf(x: number, y: number, width: number, height: number): Point[] {
  const points: Point[] = [];
  for (const across of [-0.5, -0.25, 0, 0.25, 0.5]) for (const down of [-0.5, 0, 0.5]) points.push([x + across * width, y + down * height]);
  return points;
}

function inside(outline: readonly Point[], [x, y]: Point): boolean {
  let odd = false;
  outline.forEach(([ax, ay], index) => {
    const [bx, by] = outline[(index + 1) % outline.length]!;
    if (ay > y !== by > y && x < ax + ((bx - ax) * (y - ay)) / (by - ay)) odd = !odd;
  });
  return odd;
}
