// SPDX-License-Identifier: Apache-2.0
// The scale of the picture from two points whose distance is known; a second known distance says how far that is off.
import type { Point2 } from '../../job/document';
import { distance } from '../../job/edits/geometry';
import { checkScale, meanScale, setScale, type ScaleWish } from '../../job/edits/picture-scale';
import { PointsTool } from './points-tool.svelte';
import type { ToolContext, TypedWish } from './tool';

export class ScaleTool extends PointsTool {
  #scaled = false;
  /** The second distance, waiting to be taken in or left. */
  #second: ScaleWish | undefined = $state.raw();
  #words = $state('');
  #along: () => boolean;

  /** `along`: whether what is drawn is enlarged with the picture. */
  constructor(context: ToolContext, along: () => boolean) {
    super(context);
    this.#along = along;
  }

  get hint(): string {
    if (!this.context.session.document.plan?.underlay) return 'There is no picture beneath the plan yet.';
    if (this.#second) return `${this.#words} Finish takes the mean of both; Cancel leaves the scale.`;
    if (this.points.length < 2) return this.#scaled ? 'Tap two other points whose distance you know, to check the scale.' : 'Tap two points of the picture whose distance you know.';
    return this.#scaled ? 'Type their true distance: nothing is changed by it yet.' : `Type their true distance and press Enter. The picture is enlarged about the first point; what is drawn ${this.#along() ? 'goes along with it' : 'stays where it is'}.`;
  }

  protected set(point: Point2): void {
    this.#second = undefined;
    this.points = this.points.length < 2 ? [...this.points, point] : [this.points[0]!, point];
  }

  // Once both points are set: how long it is by the scale so far, not how far the hand has gone on since.
  protected override readout(line: readonly Point2[]): string {
    const [a, b] = this.points;
    return a && b ? `${this.context.length(distance(a, b))} so far` : super.readout(line);
  }

  override get typed(): TypedWish | undefined {
    return this.points.length === 2 ? { label: 'True distance of the two points', take: (lengthM) => this.#take(lengthM) } : undefined;
  }

  #take(lengthM: number): boolean {
    const [a, b] = [this.points[0]!, this.points[1]!];
    const wish: ScaleWish = { a, b, lengthM, withDrawing: this.#along() };
    return this.#scaled ? this.#check(wish) : this.#scale(wish);
  }

  #scale(wish: ScaleWish): boolean {
    const command = setScale(this.context.session.document, wish);
    if (!command) return false;
    this.context.session.store.run(command);
    this.#scaled = true;
    this.context.say(`${command.label}: ${this.context.length(wish.lengthM)} between the two points. A second known distance checks it.`);
    super.cancel();
    return true;
  }

  #check(wish: ScaleWish): boolean {
    const check = checkScale(wish.a, wish.b, wish.lengthM);
    if (!check) return false;
    const much = Math.abs(check.offPct).toFixed(1);
    this.#words = check.withinTape
      ? `The second distance agrees within what a tape can be off (${much} %).`
      : `The second distance disagrees by ${much} %: measure again, or the picture is not straight from above.`;
    this.#second = wish;
    this.context.say(this.#words);
    return true;
  }

  finish(): void {
    const command = this.#second && meanScale(this.context.session.document, this.#second);
    if (command) this.context.session.store.run(command);
    this.cancel();
  }

  override cancel(): void {
    this.#second = undefined;
    super.cancel();
  }
}
