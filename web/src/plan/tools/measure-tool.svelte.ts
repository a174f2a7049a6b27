// SPDX-License-Identifier: Apache-2.0
// Measure: from point to point, the stretch in hand and all of them together. Leaves nothing in the job.
import type { Point2, Polyline } from '../../job/document';
import { angleDegOf, distance, lengthOf, polar } from '../../job/edits/geometry';
import type { Sketch, Stroke, Tool, ToolContext, TypedWish } from './tool';

export class MeasureTool implements Tool {
  readonly draws = true;
  sketch: Sketch = $state.raw({});
  #points: Polyline = $state.raw([]);
  #hand: Point2 | undefined;
  #context: ToolContext;

  constructor(context: ToolContext) {
    this.#context = context;
  }

  get unfinished(): boolean {
    return this.#points.length > 0;
  }

  get hint(): string {
    if (this.#points.length === 0) return 'Tap where to measure from.';
    return `${this.#context.length(lengthOf(this.#points))} so far. Tap the next point; Finish or Esc clears it.`;
  }

  get typed(): TypedWish | undefined {
    if (this.#points.length === 0) return undefined;
    return {
      label: 'Distance to the next point',
      take: (lengthM, angleDeg) => {
        const last = this.#points.at(-1);
        if (!last || !(lengthM > 0)) return false;
        this.#points = [...this.#points, polar(last, lengthM, angleDeg ?? (this.#hand ? angleDegOf(last, this.#hand) : 0))];
        this.#draw();
        return true;
      },
    };
  }

  hover(stroke: Stroke): void {
    const found = this.#context.snap(stroke, this.#points.at(-1));
    this.#hand = found?.point ?? stroke.at;
    this.#draw(found);
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
    this.#points = [...this.#points, this.#hand!];
    this.#context.say(this.hint);
    this.#draw();
  }

  cancelStroke(): void {
    this.#hand = undefined;
    this.#draw();
  }

  finish(): void {
    this.cancel();
  }

  stepBack(): void {
    this.#points = this.#points.slice(0, -1);
    this.#draw();
  }

  cancel(): void {
    this.#points = [];
    this.sketch = {};
  }

  #draw(found?: Sketch['snap']): void {
    const last = this.#points.at(-1);
    if (!last || !this.#hand) {
      this.sketch = { snap: found, ...(this.#points.length > 0 && { line: this.#points }) };
      return;
    }
    const line = [...this.#points, this.#hand];
    const whole = this.#points.length > 1 ? ` · ${this.#context.length(lengthOf(line))} in all` : '';
    this.sketch = { line, snap: found, readout: { at: this.#hand, text: this.#context.length(distance(last, this.#hand)) + whole } };
  }
}
