// SPDX-License-Identifier: Apache-2.0
// Dimension labels: how long a stretch of a cable, a sleeve or an edge is, written beside it on the screen. What is
// selected comes first; a label that would lie on another, or is wider than its stretch, is left out.
import type { JobDocument, Point2, Polyline } from '../job/document';
import { distance } from '../job/edits/geometry';
import { routesOf } from '../job/edits/routes';
import { quantityText } from '../units/quantity';
import type { UnitSystem } from '../units/quantity';
import { pxFromSite, type PlanFrame } from './frame';

export interface Dimension {
  readonly key: string;
  readonly text: string;
  readonly atPx: Point2;
}

interface Drawn {
  readonly key: string;
  readonly path: Polyline;
  /** Of an outline: on which side of its stretches it lies, so that each label stands within what it measures. */
  readonly inside?: 'left' | 'right';
}

/** The width of a character of a label, a little generous. */
const charPx = 7;
const highPx = 16;
const asidePx = 11;

/** Every line of the plan that has a length worth reading, chosen ones first. */
export function linesOf(job: JobDocument, isChosen: (kind: 'cable' | 'sleeve' | 'area', id: string) => boolean, all: boolean): readonly Drawn[] {
  const routes = routesOf(job);
  const lines = [
    ...(job.plan?.areas ?? []).map(({ id, outline }) => ({ kind: 'area' as const, id, path: [...outline, ...outline.slice(0, 1)] })),
    ...(job.plan?.sleeves ?? []).map(({ id, path }) => ({ kind: 'sleeve' as const, id, path: path ?? [] })),
    ...(job.cables ?? []).map(({ id }) => ({ kind: 'cable' as const, id, path: routes.get(id) ?? [] })),
  ];
  const named = ({ kind, id, path }: (typeof lines)[number]): Drawn =>
    kind === 'area' ? { key: `${kind}/${id}`, path, inside: doubledAreaOf(path) > 0 ? 'left' : 'right' } : { key: `${kind}/${id}`, path };
  const chosen = lines.filter(({ kind, id }) => isChosen(kind, id));
  return [...chosen, ...(all ? lines.filter((line) => !chosen.includes(line)) : [])].map(named);
}

export function dimensionsOf(lines: readonly Drawn[], frame: PlanFrame, units: UnitSystem): readonly Dimension[] {
  const made: Dimension[] = [];
  const taken = new Taken();
  for (const { key, path, inside } of lines) {
    for (let i = 0; i + 1 < path.length; i += 1) {
      const text = quantityText(distance(path[i]!, path[i + 1]!), 'length', units);
      const atPx = placeBeside(pxFromSite(frame, path[i]!), pxFromSite(frame, path[i + 1]!), text, frame, inside);
      if (atPx && taken.take(atPx, text.length * charPx)) made.push({ key: `${key}/${i}`, text, atPx });
    }
  }
  return made;
}

// Positive where the outline runs counter-clockwise.
const doubledAreaOf = (closed: Polyline): number =>
  closed.slice(1).reduce((sum, [x, y], i) => sum + closed[i]![0] * y - x * closed[i]![1], 0);

// Beside the middle: within an outline, else on the upper side (on the right of an upright one).
function placeBeside(a: Point2, b: Point2, text: string, frame: PlanFrame, inside: Drawn['inside']): Point2 | undefined {
  const lengthPx = distance(a, b);
  const widePx = text.length * charPx;
  if (lengthPx < widePx) return undefined;
  const [dx, dy] = [(b[0] - a[0]) / lengthPx, (b[1] - a[1]) / lengthPx];
  const upper = dx < 0 || (dx === 0 && dy < 0) ? -1 : 1;
  const up = inside === undefined ? upper : inside === 'left' ? 1 : -1;
  // Level text beside a steep line needs half its width of room.
  const roomPx = asidePx + Math.abs(dy) * (widePx / 2 - 4);
  const [x, y] = [(a[0] + b[0]) / 2 + up * dy * roomPx, (a[1] + b[1]) / 2 - up * dx * roomPx];
  return x > 0 && y > 0 && x < frame.widthPx && y < frame.heightPx ? [x, y] : undefined;
}

/** Where labels are already, in a grid so that a thousand of them stay quick. */
class Taken {
  #cells = new Map<string, { at: Point2; widePx: number }[]>();

  take(at: Point2, widePx: number): boolean {
    const cells = this.#cellsOf(at);
    const clear = cells.every((key) =>
      (this.#cells.get(key) ?? []).every((other) => Math.abs(other.at[0] - at[0]) >= (other.widePx + widePx) / 2 || Math.abs(other.at[1] - at[1]) >= highPx),
    );
    if (clear) for (const key of cells) this.#cells.set(key, [...(this.#cells.get(key) ?? []), { at, widePx }]);
    return clear;
  }

  #cellsOf([x, y]: Point2): readonly string[] {
    const [column, row] = [Math.floor(x / 120), Math.floor(y / 60)];
    return [-1, 0, 1].flatMap((i) => [-1, 0, 1].map((j) => `${column + i},${row + j}`));
  }
}
