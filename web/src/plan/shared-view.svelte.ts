// SPDX-License-Identifier: Apache-2.0
// Which part of the garden small plans show: those that share it are moved and enlarged together, so that the same
// place is in sight in all.
import type { Point2 } from '../job/document';
import { fittedTo, mostPxPerM, pannedBy, zoomedAt, type PlanFrame } from './frame';

const marginPx = 26;
const mostZoom = 16;

export class SharedView {
  #centre: Point2 | undefined = $state.raw();
  #zoom = $state(1);

  /** The frame of a plan of that size with these points in it. */
  frame(points: readonly Point2[], widthPx: number, heightPx: number): PlanFrame {
    const whole = fittedTo({ centre: [0, 0], pxPerM: 1, widthPx, heightPx }, points, marginPx);
    return { ...whole, centre: this.#centre ?? whole.centre, pxPerM: Math.min(mostPxPerM, whole.pxPerM * this.#zoom) };
  }

  get moved(): boolean {
    return this.#centre !== undefined || this.#zoom !== 1;
  }

  pan(frame: PlanFrame, dxPx: number, dyPx: number): void {
    this.#centre = pannedBy(frame, dxPx, dyPx).centre;
  }

  /** About a point of the plan; by the middle where none is given. */
  zoom(frame: PlanFrame, factor: number, atPx: Point2 = [frame.widthPx / 2, frame.heightPx / 2]): void {
    const zoom = Math.min(mostZoom, Math.max(1, this.#zoom * factor));
    this.#centre = zoomedAt(frame, atPx, zoom / this.#zoom).centre;
    this.#zoom = zoom;
  }

  /** The buttons know no frame: they keep the middle. */
  zoomBy(factor: number): void {
    this.#zoom = Math.min(mostZoom, Math.max(1, this.#zoom * factor));
  }

  showAll(): void {
    this.#centre = undefined;
    this.#zoom = 1;
  }
}
