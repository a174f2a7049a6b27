// SPDX-License-Identifier: Apache-2.0
// What tools that set points one after the other share: snapping, the line in hand, typed lengths, the way back.
import type { Point2, Polyline } from '../../job/document';
import { angleDegOf, distance, polar } from '../../job/edits/geometry';
import type { Sketch, Stroke, Tool, ToolContext, TypedWish } from './tool';

/** A row of points set by taps or typed lengths. */
export abstract class PointsTool implements Tool {
  readonly draws = true;
  sketch: Sketch = $state.raw({});
  protected points: Polyline = $state.raw([]);
  protected readonly context: ToolContext;
  #hand: Point2 | undefined;

  constructor(context: ToolContext) {
    this.context = context;
  }

  abstract get hint(): string;
  abstract finish(): void;
  protected abstract set(point: Point2): void;
  /** What is said of the sides so far. */
  protected readout(points: Polyline): string {
    return this.context.length(distance(points.at(-2)!, points.at(-1)!));
  }

  get unfinished(): boolean {
    return this.points.length > 0;
  }

  get typed(): TypedWish | undefined {
    if (this.points.length === 0) return undefined;
    return { label: 'Length of this side', take: (lengthM, angleDeg) => this.takeLength(lengthM, angleDeg) };
  }

  protected takeLength(lengthM: number, angleDeg: number | undefined): boolean {
    const last = this.points.at(-1);
    if (!last || !(lengthM > 0)) return false;
    this.set(polar(last, lengthM, angleDeg ?? (this.#hand ? angleDegOf(last, this.#hand) : 0)));
    this.draw();
    return true;
  }

  hover(stroke: Stroke): void {
    const found = this.context.snap(stroke, this.points.at(-1));
    this.#hand = found?.point ?? stroke.at;
    this.draw(found);
  }

  down(stroke: Stroke): boolean {
    this.hover(stroke);
    return true;
  }

  move(stroke: Stroke): void {
    this.hover(stroke);
  }

  up(stroke: Stroke): void {
    this.hover(stroke);
    this.set(this.#hand!);
    this.draw();
  }

  cancelStroke(): void {
    this.#hand = undefined;
    this.draw();
  }

  stepBack(): void {
    this.points = this.points.slice(0, -1);
    this.draw();
  }

  cancel(): void {
    this.points = [];
    this.sketch = {};
  }

  protected draw(found?: Sketch['snap']): void {
    if (this.points.length === 0 || !this.#hand) {
      this.sketch = { snap: found, ...(this.points.length > 0 && { line: this.points }) };
      return;
    }
    const line = [...this.points, this.#hand];
    this.sketch = { line, snap: found, readout: { at: this.#hand, text: this.readout(line) } };
  }
}
