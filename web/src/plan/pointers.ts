// SPDX-License-Identifier: Apache-2.0
// Fingers, pens and mice on the plan: one pointer is a stroke for the tool or moves the view, two move and enlarge the
// view, and a second finger takes back what the first had begun. While a pen is about, a finger only moves the view.
import type { Point2 } from '../job/document';

export interface PointerActions {
  /** A stroke begins; false: it moves the view instead. */
  down(at: Point2, event: PointerEvent): boolean;
  move(at: Point2, event: PointerEvent): void;
  up(at: Point2, event: PointerEvent): void;
  hover(at: Point2, event: PointerEvent): void;
  cancel(): void;
  pan(dxPx: number, dyPx: number): void;
  /** Two fingers: moved by half each, enlarged about their middle. */
  pinch(middle: Point2, dxPx: number, dyPx: number, factor: number): void;
  /** A pointer that neither moved nor drew. */
  tap(at: Point2, event: PointerEvent): void;
  /** Whether a press of the middle button, or of any while the space bar is held, moves the view. */
  panning(event: PointerEvent): boolean;
}

const slopPx = 4;
const slopTouchPx = 9;

export class Pointers {
  #actions: PointerActions;
  #points = new Map<number, Point2>();
  #start: Point2 = [0, 0];
  #mode: 'none' | 'waiting' | 'stroke' | 'view' | 'pinch' = 'none';
  #strokeTaken = false;
  #penSeen = false;

  constructor(actions: PointerActions) {
    this.#actions = actions;
  }

  down(event: PointerEvent, at: Point2): void {
    if (event.pointerType === 'pen') this.#penSeen = true;
    this.#points.set(event.pointerId, at);
    if (this.#points.size === 2) {
      if (this.#strokeTaken) this.#actions.cancel();
      this.#strokeTaken = false;
      this.#mode = 'pinch';
      return;
    }
    if (this.#points.size > 2) return;
    this.#start = at;
    this.#mode = 'waiting';
    const fingerBesidePen = this.#penSeen && event.pointerType === 'touch';
    this.#strokeTaken = !this.#actions.panning(event) && !fingerBesidePen && this.#actions.down(at, event);
  }

  move(event: PointerEvent, at: Point2): void {
    const before = this.#points.get(event.pointerId);
    if (!before) {
      if (event.pointerType !== 'touch') this.#actions.hover(at, event);
      return;
    }
    if (this.#mode === 'waiting') {
      const slop = event.pointerType === 'touch' ? slopTouchPx : slopPx;
      if (Math.hypot(at[0] - this.#start[0], at[1] - this.#start[1]) < slop) return;
      this.#mode = this.#strokeTaken ? 'stroke' : 'view';
    }
    this.#points.set(event.pointerId, at);
    if (this.#mode === 'stroke') this.#actions.move(at, event);
    else if (this.#mode === 'view') this.#actions.pan(at[0] - before[0], at[1] - before[1]);
    else if (this.#mode === 'pinch') this.#pinch(event.pointerId, before, at);
  }

  up(event: PointerEvent, at: Point2): void {
    if (!this.#points.delete(event.pointerId)) return;
    const mode = this.#mode;
    if (this.#points.size > 0) return;
    this.#mode = 'none';
    if (mode === 'pinch' || mode === 'view') return;
    if (this.#strokeTaken) this.#actions.up(at, event);
    else this.#actions.tap(at, event);
    this.#strokeTaken = false;
  }

  cancel(event: PointerEvent): void {
    if (!this.#points.delete(event.pointerId)) return;
    if (this.#strokeTaken) this.#actions.cancel();
    this.#strokeTaken = false;
    if (this.#points.size === 0) this.#mode = 'none';
  }

  #pinch(id: number, before: Point2, now: Point2): void {
    const other = [...this.#points].find(([pointer]) => pointer !== id)?.[1];
    if (!other) return;
    const apart = (a: Point2): number => Math.max(1, Math.hypot(a[0] - other[0], a[1] - other[1]));
    const middle: Point2 = [(now[0] + other[0]) / 2, (now[1] + other[1]) / 2];
    this.#actions.pinch(middle, (now[0] - before[0]) / 2, (now[1] - before[1]) / 2, apart(now) / apart(before));
  }
}
