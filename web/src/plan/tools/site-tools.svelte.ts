// SPDX-License-Identifier: Apache-2.0
// Tools for the site: areas corner by corner, single things by a tap.
import type { Point2, Polyline } from '../../job/document';
import { distance } from '../../job/edits/geometry';
import { areaM2Of, drawOutline, fewestCorners, placeSpot, type OutlineKind, type SpotKind } from '../../job/edits/site';
import { PointsTool } from './points-tool.svelte';
import type { Sketch, Stroke, Tool, ToolContext } from './tool';

export class AreaTool extends PointsTool {
  #kind: () => OutlineKind;

  constructor(context: ToolContext, kind: () => OutlineKind) {
    super(context);
    this.#kind = kind;
  }

  get hint(): string {
    if (this.#kind() === 'sleeve') return 'Tap the ends of the sleeve, then Finish.';
    if (this.points.length === 0) return `Tap the corners of the ${this.#kind().replace('_', ' ')}, one after the other.`;
    return this.points.length < 3 ? 'Tap the next corner.' : 'Tap the next corner, or the first one again to close the area.';
  }

  protected override readout(points: Polyline): string {
    const side = super.readout(points);
    return points.length < 3 || this.#kind() === 'sleeve' ? side : `${side} · ${areaM2Of(points).toFixed(1)} m²`;
  }

  protected set(point: Point2): void {
    const first = this.points[0];
    if (first && this.#closes && distance(first, point) < 1e-6) this.finish();
    else this.points = [...this.points, point];
  }

  // Its own first corner closes it.
  override hover(stroke: Stroke): void {
    const first = this.points[0];
    const closes = first && this.#closes && distance(first, stroke.at) <= stroke.radiusM;
    super.hover(closes ? { ...stroke, at: first, free: true } : stroke);
  }

  get #closes(): boolean {
    return this.points.length > 2 && this.#kind() !== 'sleeve';
  }

  finish(): void {
    const made = drawOutline(this.#kind(), this.points);
    if (!made) {
      const fewest = fewestCorners(this.#kind());
      this.context.say(this.points.length < fewest ? `That needs ${fewest} points.` : 'The sides cross one another: take the last point back.');
      return;
    }
    this.context.session.store.run(made.command);
    this.context.session.selection.set(made.made ? [made.made] : []);
    this.context.say(`${made.command.label}.`);
    this.cancel();
  }
}

export class SpotTool implements Tool {
  readonly draws = true;
  readonly unfinished = false;
  sketch: Sketch = $state.raw({});
  #context: ToolContext;
  #kind: () => SpotKind;

  constructor(context: ToolContext, kind: () => SpotKind) {
    this.#context = context;
    this.#kind = kind;
  }

  get hint(): string {
    return `Tap where the ${this.#kind().replace('_', ' ')} is.`;
  }

  hover(stroke: Stroke): void {
    this.sketch = { snap: this.#context.snap(stroke) ?? { point: stroke.at, name: '' } };
  }

  down(stroke: Stroke): boolean {
    this.hover(stroke);
    return true;
  }

  move(stroke: Stroke): void {
    this.hover(stroke);
  }

  up(stroke: Stroke): void {
    const at = this.#context.snap(stroke)?.point ?? stroke.at;
    const { session } = this.#context;
    const placed = placeSpot(session.document, this.#kind(), at);
    session.store.run(placed.command);
    session.selection.set([placed.made]);
    this.#context.say(`${placed.command.label}.`);
    this.sketch = {};
  }

  cancelStroke(): void {
    this.sketch = {};
  }

  cancel(): void {
    this.sketch = {};
  }
}
