// SPDX-License-Identifier: Apache-2.0
// A place from two tape measures: two known points, the distance from each, then the one of both places that is meant.
import type { Point2 } from '../../job/document';
import { distance } from '../../job/edits/geometry';
import { placeSpot } from '../../job/edits/site';
import { placeByTapes, type TapeOutcome } from '../../job/edits/tape';
import { PointsTool } from './points-tool.svelte';
import type { Stroke, TypedWish } from './tool';

const flatWarning = ' The tapes cross flat: measure from a third point as well.';

export class TapeTool extends PointsTool {
  #lengthsM: readonly number[] = $state.raw([]);
  #outcome: TapeOutcome | undefined = $state.raw();
  #hand: Point2 | undefined;

  get hint(): string {
    const outcome = this.#outcome;
    if (outcome?.kind === 'met') {
      return `Tap the place that is meant. It may be off by ${this.context.length(outcome.errorM)}: an estimate, with tapes good to 1 % (common practice, no source).${outcome.flat ? flatWarning : ''}`;
    }
    if (outcome) return this.#whyNot(outcome);
    if (this.points.length < 2) return this.points.length === 0 ? 'Tap the first point that is measured from: a fixed point, a corner of the house.' : 'Tap the second point.';
    return this.#lengthsM.length === 0 ? 'Type the distance from the first point.' : 'Type the distance from the second point.';
  }

  protected set(point: Point2): void {
    if (this.points.length < 2) this.points = [...this.points, point];
  }

  override get typed(): TypedWish | undefined {
    if (this.points.length < 2 || this.#outcome?.kind === 'met') return undefined;
    return { label: this.#lengthsM.length === 1 ? 'Distance from the second point' : 'Distance from the first point', take: (lengthM) => this.#take(lengthM) };
  }

  #take(lengthM: number): boolean {
    if (!(lengthM > 0)) return false;
    this.#lengthsM = this.#lengthsM.length === 1 ? [this.#lengthsM[0]!, lengthM] : [lengthM];
    const [fromAM, fromBM] = this.#lengthsM;
    this.#outcome = fromBM === undefined ? undefined : placeByTapes(this.points[0]!, this.points[1]!, fromAM!, fromBM);
    // Distances that do not meet are typed anew.
    if (this.#outcome && this.#outcome.kind !== 'met') this.#lengthsM = [];
    this.context.say(this.hint);
    this.#show(this.#hand ?? this.points[1]!);
    return true;
  }

  override hover(stroke: Stroke): void {
    this.#hand = stroke.at;
    if (this.#outcome?.kind === 'met') this.#show(stroke.at);
    else super.hover(stroke);
  }

  override up(stroke: Stroke): void {
    const place = this.#nearest(stroke.at);
    if (!place) {
      super.up(stroke);
      return;
    }
    const { session } = this.context;
    const placed = placeSpot(session.document, 'fixed_point', place.point);
    session.store.run({ ...placed.command, label: 'Place a point by two tapes' });
    session.selection.set([placed.made]);
    this.context.say('A point by two tapes. What is placed next can snap to it.');
    this.cancel();
  }

  finish(): void {
    this.cancel();
  }

  override cancel(): void {
    this.#lengthsM = [];
    this.#outcome = undefined;
    super.cancel();
  }

  #nearest(to: Point2): { readonly point: Point2; readonly side: string } | undefined {
    if (this.#outcome?.kind !== 'met') return undefined;
    return [...this.#outcome.places].sort((p, q) => distance(p.point, to) - distance(q.point, to))[0];
  }

  // The two tapes as they lie, with the nearer of both places marked.
  #show(to: Point2): void {
    const place = this.#nearest(to);
    const [a, b] = this.points;
    if (!place || !a || !b) return;
    const name = place.side === 'between' ? 'between the points' : `${place.side} of the line`;
    this.sketch = { line: [a, place.point, b], snap: { point: place.point, name } };
  }

  #whyNot(outcome: Exclude<TapeOutcome, { kind: 'met' }>): string {
    if (outcome.kind === 'same_point') return 'Both points are the same: take another.';
    const missing = this.context.length(outcome.missingM);
    const why = outcome.kind === 'too_short' ? `The two distances are ${missing} too short to meet.` : `One distance is ${missing} too short for the other.`;
    return `${why} ${outcome.explained ? 'The tapes may just be off by that.' : 'One of them, or a point, is wrong.'} Type both again.`;
  }
}
