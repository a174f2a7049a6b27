// SPDX-License-Identifier: Apache-2.0
// Lay a cable: from a transformer, light, joint or another cable, bend by bend, to the next light. It then goes on from
// there, so that a chain is one tap a light. A tap on a cable sets a joint into it.
import type { CableItem, Point2, Polyline } from '../../job/document';
import { angleDegOf, distance, lengthOf, polar } from '../../job/edits/geometry';
import { cableEndOf, layCable, type CableEnd } from '../../job/edits/place';
import type { Snap } from './snap';
import type { Sketch, Stroke, Tool, ToolContext, TypedWish } from './tool';

const fastens = new Set(['luminaire', 'transformer', 'joint', 'cable']);

export class CableTool implements Tool {
  readonly draws = true;
  sketch: Sketch = $state.raw({});
  #from: CableEnd | undefined = $state.raw();
  #bends: Polyline = $state.raw([]);
  #hand: Point2 | undefined;
  #context: ToolContext;
  #item: () => CableItem | undefined;

  constructor(context: ToolContext, item: () => CableItem | undefined) {
    this.#context = context;
    this.#item = item;
  }

  get unfinished(): boolean {
    return this.#from !== undefined;
  }

  get hint(): string {
    const item = this.#item();
    if (!item) return 'Choose a cable from the catalogue first.';
    if (!this.#from) return `Tap where ${item.title ?? item.id} starts: a transformer, a light, a joint or a cable.`;
    return 'Tap bends, then the light, joint or cable where it ends. Finish ends it on open ground.';
  }

  get typed(): TypedWish | undefined {
    if (!this.#from) return undefined;
    return { label: 'Length of this stretch', take: (lengthM, angleDeg) => this.#step(lengthM, angleDeg) };
  }

  hover(stroke: Stroke): void {
    const found = this.#find(stroke);
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
    const found = this.#find(stroke);
    const point = found?.point ?? stroke.at;
    const end = found?.ref && fastens.has(found.ref.kind) ? cableEndOf(this.#context.session.document, found.ref, point) : undefined;
    if (!this.#from) {
      if (!end) {
        this.#context.say('A cable starts at a transformer, a light, a joint or another cable.');
        return;
      }
      this.#from = end;
    } else if (end) {
      this.#end(end);
    } else {
      this.#bends = [...this.#bends, point];
    }
    this.#draw(undefined);
  }

  cancelStroke(): void {
    this.sketch = {};
  }

  /** On open ground, with a joint that marks the end of the run. */
  finish(): void {
    const last = this.#bends.at(-1);
    if (!this.#from || !last) return this.cancel();
    this.#bends = this.#bends.slice(0, -1);
    this.#end({ at: 'ground', point: last });
    this.cancel();
  }

  stepBack(): void {
    if (this.#bends.length > 0) this.#bends = this.#bends.slice(0, -1);
    else this.#from = undefined;
    this.#draw(undefined);
  }

  cancel(): void {
    this.#from = undefined;
    this.#bends = [];
    this.sketch = {};
  }

  #find(stroke: Stroke): Snap | undefined {
    const last = this.#bends.at(-1) ?? this.#from?.point;
    return this.#context.snap(stroke, last);
  }

  #end(end: CableEnd): void {
    const item = this.#item();
    const from = this.#from;
    if (!item || !from) return;
    const { session } = this.#context;
    const laid = layCable(session.document, item, from, this.#bends, end);
    if (!laid) {
      this.#context.say('A cable needs two different ends.');
      return;
    }
    session.store.run(laid.command);
    session.selection.set([laid.made]);
    const path = session.document.cables?.find(({ id }) => id === laid.made.id)?.path ?? [];
    this.#context.say(`${laid.command.label}: ${this.#context.length(lengthOf(path))}.`);
    this.#bends = [];
    // On from there. What was a spot on another cable, or on the ground, is a joint by now: its end of the new cable says.
    const made = session.document.cables?.find(({ id }) => id === laid.made.id);
    this.#from = made && { at: 'end', id: made.to, point: end.point };
  }

  #step(lengthM: number, angleDeg: number | undefined): boolean {
    const last = this.#bends.at(-1) ?? this.#from?.point;
    if (!last || !(lengthM > 0)) return false;
    const towards = angleDeg ?? (this.#hand && distance(this.#hand, last) > 0 ? angleDegOf(last, this.#hand) : 0);
    this.#bends = [...this.#bends, polar(last, lengthM, towards)];
    this.#draw(undefined);
    return true;
  }

  #draw(found: Snap | undefined): void {
    const start = this.#from?.point;
    if (!start) {
      this.sketch = { snap: found };
      return;
    }
    const set = [start, ...this.#bends];
    const line = this.#hand ? [...set, this.#hand] : set;
    const last = set.at(-1)!;
    const stretch = this.#hand ? distance(last, this.#hand) : 0;
    const whole = lengthOf(line);
    const text = set.length > 1 ? `${this.#context.length(stretch)} · ${this.#context.length(whole)} in all` : this.#context.length(stretch);
    this.sketch = { line, snap: found, ...(this.#hand && { readout: { at: this.#hand, text } }) };
  }
}
