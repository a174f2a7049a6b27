// SPDX-License-Identifier: Apache-2.0
// Measure: from point to point, the stretch in hand and all of them together. Leaves nothing in the job.
import type { Point2, Polyline } from '../../job/document';
import { lengthOf } from '../../job/edits/geometry';
import { PointsTool } from './points-tool.svelte';

export class MeasureTool extends PointsTool {
  get hint(): string {
    if (this.points.length === 0) return 'Tap where to measure from.';
    return `${this.context.length(lengthOf(this.points))} so far. Tap the next point; Finish or Esc clears it.`;
  }

  protected override readout(points: Polyline): string {
    const stretch = super.readout(points);
    return points.length > 2 ? `${stretch} · ${this.context.length(lengthOf(points))} in all` : stretch;
  }

  protected set(point: Point2): void {
    this.points = [...this.points, point];
    this.context.say(this.hint);
  }

  finish(): void {
    this.cancel();
  }
}
