// SPDX-License-Identifier: Apache-2.0
// Where labels stand beside their marks, so that none lies on another or on a mark. In pixels of the drawing, y down.
// Tries places round each mark in rings; a label that had to move away gets a line back to its mark. Of the free places
// of a ring it takes the one that covers least of the lines.

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

interface Rect {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

const gap = 1.5;
// Right first, as one reads; then left, above, below, the corners.
const ways: readonly (readonly [number, number])[] = [[1, 0], [-1, 0], [0, -1], [0, 1], [1, -1], [-1, -1], [1, 1], [-1, 1]];
const rings = [0, 9, 18, 30, 44];
const stepPx = 3;
// In points of lines covered.
const aslant = 9;

const rectAt = (x: number, y: number, width: number, height: number): Rect => ({
  left: x - width / 2,
  right: x + width / 2,
  top: y - height / 2,
  bottom: y + height / 2,
});

const shared = (a: Rect, b: Rect): number =>
  Math.max(0, Math.min(a.right, b.right) - Math.max(a.left, b.left)) * Math.max(0, Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top));

export interface Around {
  readonly width: number;
  readonly height: number;
  /** Cables and edges: what a label had better not cover. */
  readonly lines?: readonly (readonly (readonly [number, number])[])[];
}

export function labelPlaces(marks: readonly Mark[], room: Around): Label[] {
  const points = (room.lines ?? []).flatMap(pointsAlong);
  const covered = ({ left, right, top, bottom }: Rect): number =>
    points.reduce((sum, [x, y]) => (x > left && x < right && y > top && y < bottom ? sum + 1 : sum), 0);
  const taken: Rect[] = marks.map(({ x, y, radius }) => rectAt(x, y, 2 * radius, 2 * radius));
  // How much of a place is taken already, or lies beyond the drawing.
  const cost = (rect: Rect): number => {
    const inside = shared(rect, { left: 0, top: 0, right: room.width, bottom: room.height });
    const beyond = (rect.right - rect.left) * (rect.bottom - rect.top) - inside;
    return taken.reduce((sum, other) => sum + shared(rect, other), 10 * beyond);
  };
  return marks.filter(({ width }) => width > 0).map((mark) => {
    let best: { rect: Rect; cost: number; covers: number; ring: number } | undefined;
    for (const ring of rings) {
      for (const [right, down] of ways) {
        const x = mark.x + right * (mark.radius + gap + ring + mark.width / 2);
        const y = mark.y + down * (mark.radius + gap + ring + mark.height / 2);
        const rect = rectAt(x, y, mark.width, mark.height);
        const price = cost(rect);
        if (best !== undefined && price > best.cost) continue;
        // One line crossed is better than a label aslant of its mark, which reads as another's.
        const covers = covered(rect) + (right !== 0 && down !== 0 ? aslant : 0);
        if (best === undefined || price < best.cost || covers < best.covers) best = { rect, cost: price, covers, ring };
      }
      if (best?.cost === 0) break;
    }
    const { rect, ring } = best!;
    taken.push(rect);
    const { id, width, height } = mark;
    return { id, x: (rect.left + rect.right) / 2, y: (rect.top + rect.bottom) / 2, width, height, line: ring === 0 ? undefined : lineBack(mark, rect) };
  });
}

function pointsAlong(line: readonly (readonly [number, number])[]): (readonly [number, number])[] {
  return line.slice(1).flatMap(([toX, toY], index) => {
    const [x, y] = line[index]!;
    const count = Math.max(1, Math.ceil(Math.hypot(toX - x, toY - y) / stepPx));
    return Array.from({ length: count }, (_, step) => [x + ((toX - x) * step) / count, y + ((toY - y) * step) / count] as const);
  });
}

// From the rim of the mark to the nearest point of the label.
function lineBack(mark: Mark, rect: Rect): readonly [number, number, number, number] {
  const x = Math.min(rect.right, Math.max(rect.left, mark.x));
  const y = Math.min(rect.bottom, Math.max(rect.top, mark.y));
  const reach = Math.hypot(x - mark.x, y - mark.y) || 1;
  return [mark.x + ((x - mark.x) / reach) * mark.radius, mark.y + ((y - mark.y) / reach) * mark.radius, x, y];
}
