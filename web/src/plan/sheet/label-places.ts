// SPDX-License-Identifier: Apache-2.0
// Where labels stand beside their marks, so that none lies on another or on a mark. In pixels of the drawing, y down.
// Tries places round each mark in rings; a label that had to move away gets a line back to its mark. Of the free places
// of a ring it takes the one that covers least of the lines. A label that finds no place is left out: two on one
// another cannot be read either.
import { Crowd, pointsAlong, rectAt, shared, type Point, type Rect } from './crowd';

export interface Mark {
  readonly id: string;
  readonly x: number;
  readonly y: number;
  /** Half the side of what is drawn there. */
  readonly radius: number;
  /** Of its label; 0 for a mark that has none and is only in the way. */
  readonly width: number;
  readonly height: number;
}

export interface Label {
  readonly id: string;
  /** Middle of the label. */
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  /** From the mark to the label, where it does not stand right beside. */
  readonly line: readonly [number, number, number, number] | undefined;
}

export interface Around {
  readonly width: number;
  readonly height: number;
  /** Cables and edges: what a label had better not cover. */
  readonly lines?: readonly (readonly Point[])[];
}

const gap = 1.5;
/** Between labels in a row, which would read as one word. */
const between = 4;
// Right first, as one reads; then left, above, below, the corners.
const ways: readonly Point[] = [[1, 0], [-1, 0], [0, -1], [0, 1], [1, -1], [-1, -1], [1, 1], [-1, 1]];
const rings = [0, 9, 18, 30];
// In points of lines covered: one line crossed is better than a label aslant of its mark, which reads as another's.
const aslant = 9;
// A touch of a corner can still be read.
const mostShared = 0.08;

interface Place {
  readonly rect: Rect;
  readonly cost: number;
  readonly covers: number;
}

export function labelPlaces(marks: readonly Mark[], { width, height, lines = [] }: Around): Label[] {
  const room: Rect = { left: 0, top: 0, right: width, bottom: height };
  const taken = new Crowd<Rect>();
  const points = new Crowd<Point>();
  const take = (rect: Rect): void => taken.add(rect, rect);
  for (const { x, y, radius } of marks) take(rectAt(x, y, 2 * radius, 2 * radius));
  for (const point of lines.flatMap(pointsAlong)) points.add(point, rectAt(...point, 0, 0));

  // How much of a place is taken already, or lies beyond the drawing.
  const costOf = (rect: Rect): number => {
    let sum = 10 * ((rect.right - rect.left) * (rect.bottom - rect.top) - shared(rect, room));
    for (const other of taken.near(rect)) sum += shared(rect, other);
    return sum;
  };
  const covered = (rect: Rect): number => {
    let count = 0;
    for (const [x, y] of points.near(rect)) if (x > rect.left && x < rect.right && y > rect.top && y < rect.bottom) count += 1;
    return count;
  };

  return marks.filter((mark) => mark.width > 0).flatMap((mark): Label[] => {
    for (const ring of rings) {
      let best: Place | undefined;
      for (const [right, down] of ways) {
        const x = mark.x + right * (mark.radius + gap + ring + mark.width / 2);
        const y = mark.y + down * (mark.radius + gap + ring + mark.height / 2);
        const rect = rectAt(x, y, mark.width, mark.height);
        const cost = costOf(rect);
        if (best !== undefined && cost > best.cost) continue;
        const covers = covered(rect) + (right !== 0 && down !== 0 ? aslant : 0);
        if (best === undefined || cost < best.cost || covers < best.covers) best = { rect, cost, covers };
      }
      const { rect, cost } = best!;
      const free = ring === rings.at(-1) ? mostShared * mark.width * mark.height : 0;
      if (cost > free) continue;
      take({ ...rect, left: rect.left - between, right: rect.right + between });
      const line = ring === 0 ? undefined : lineBack(mark, rect);
      return [{ id: mark.id, x: (rect.left + rect.right) / 2, y: (rect.top + rect.bottom) / 2, width: mark.width, height: mark.height, line }];
    }
    return [];
  });
}

// From the rim of the mark to the nearest point of the label.
function lineBack(mark: Mark, rect: Rect): readonly [number, number, number, number] {
  const x = Math.min(rect.right, Math.max(rect.left, mark.x));
  const y = Math.min(rect.bottom, Math.max(rect.top, mark.y));
  const reach = Math.hypot(x - mark.x, y - mark.y) || 1;
  return [mark.x + ((x - mark.x) / reach) * mark.radius, mark.y + ((y - mark.y) / reach) * mark.radius, x, y];
}
