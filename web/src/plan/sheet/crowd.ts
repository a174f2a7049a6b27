// SPDX-License-Identifier: Apache-2.0
// What already lies on a drawing, kept by the squares of a grid, so that a thousand labels ask only their neighbours.

export interface Rect {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export type Point = readonly [number, number];

export const rectAt = (x: number, y: number, width: number, height: number): Rect => ({
  left: x - width / 2,
  right: x + width / 2,
  top: y - height / 2,
  bottom: y + height / 2,
});

export const shared = (a: Rect, b: Rect): number =>
  Math.max(0, Math.min(a.right, b.right) - Math.max(a.left, b.left)) * Math.max(0, Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top));

const cellPx = 32;

export class Crowd<T> {
  #cells = new Map<string, T[]>();

  add(thing: T, bounds: Rect): void {
    for (const key of cellsOf(bounds)) {
      const cell = this.#cells.get(key);
      if (cell) cell.push(thing);
      else this.#cells.set(key, [thing]);
    }
  }

  near(bounds: Rect): Set<T> {
    return new Set(cellsOf(bounds).flatMap((key) => this.#cells.get(key) ?? []));
  }
}

function cellsOf({ left, right, top, bottom }: Rect): string[] {
  const keys: string[] = [];
  for (let x = Math.floor(left / cellPx); x <= Math.floor(right / cellPx); x += 1) {
    for (let y = Math.floor(top / cellPx); y <= Math.floor(bottom / cellPx); y += 1) keys.push(`${x} ${y}`);
  }
  return keys;
}

const stepPx = 3;

/** Points along a line, close enough that no label slips between. */
export function pointsAlong(line: readonly Point[]): Point[] {
  return line.slice(1).flatMap(([toX, toY], index) => {
    const [x, y] = line[index]!;
    const count = Math.max(1, Math.ceil(Math.hypot(toX - x, toY - y) / stepPx));
    return Array.from({ length: count }, (_, step) => [x + ((toX - x) * step) / count, y + ((toY - y) * step) / count] as const);
  });
}
