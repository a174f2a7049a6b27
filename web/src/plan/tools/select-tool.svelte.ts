// SPDX-License-Identifier: Apache-2.0
// Select and move: a tap picks, a drag on a thing moves the selection with its cables, a drag on a corner moves that,
// Shift and a drag catch all in a box. On open ground a drag moves the view.
import type { Point2 } from '../../job/document';
import { distance, same } from '../../job/edits/geometry';
import { cornersOf, moveChanges, vertexChanges, type ThingRef } from '../../job/edits/move';
import { wordFor } from '../../job/edits/remove';
import { findThing, nameOf, placeOf, thingsOf } from '../../job/lookup';
import type { Gesture } from '../../job/store.svelte';
import { keyOf } from './snap';
import type { Sketch, Stroke, Tool, ToolContext } from './tool';

interface Drag {
  readonly refs: readonly ThingRef[];
  readonly corner: number | undefined;
  readonly start: Point2;
  /** Where the thing under the hand stood: that is what snaps. */
  readonly anchor: Point2;
  gesture: Gesture | undefined;
}

export class SelectTool implements Tool {
  readonly draws = false;
  readonly unfinished = false;
  sketch: Sketch = $state.raw({});
  #context: ToolContext;
  #drag: Drag | undefined;
  #box: Point2 | undefined;
  #picked: ThingRef | undefined;
  #moved = false;

  constructor(context: ToolContext) {
    this.#context = context;
  }

  get hint(): string {
    const { selection, document } = this.#context.session;
    const one = selection.single && findThing(document, selection.single.id, selection.single.kind);
    if (one) return `${nameOf(one)} is selected: drag it, move it by the arrow keys, or delete it.`;
    return selection.refs.length > 1 ? `${selection.refs.length} things are selected.` : 'Tap a thing to select it, drag it to move it.';
  }

  hover(): void {}

  down(stroke: Stroke): boolean {
    this.#moved = false;
    this.#picked = stroke.over;
    const corner = this.#cornerAt(stroke);
    if (corner) {
      this.#drag = { ...corner, start: stroke.at, gesture: undefined };
      return true;
    }
    if (stroke.over && this.#context.takes(stroke.over.kind)) {
      const { selection, document } = this.#context.session;
      const refs = selection.has(stroke.over) ? selection.refs : [stroke.over];
      const thing = findThing(document, stroke.over.id, stroke.over.kind);
      this.#drag = { refs, corner: undefined, start: stroke.at, anchor: (thing && placeOf(thing)) ?? stroke.at, gesture: undefined };
      return true;
    }
    if (!stroke.shift) return false;
    this.#box = stroke.at;
    return true;
  }

  move(stroke: Stroke): void {
    this.#moved = true;
    if (this.#box) {
      this.sketch = { box: [this.#box, stroke.at] };
      return;
    }
    const drag = this.#drag;
    if (!drag) return;
    const { session } = this.#context;
    if (!drag.gesture) {
      if (drag.corner === undefined && !session.selection.has(drag.refs[0]!)) session.selection.set(drag.refs);
      drag.gesture = session.store.begin(drag.corner === undefined ? moveLabel(this.#context, drag.refs) : 'Move a corner');
      this.#base = session.document;
    }
    const meant: Point2 = [drag.anchor[0] + stroke.at[0] - drag.start[0], drag.anchor[1] + stroke.at[1] - drag.start[1]];
    const moving = new Set(drag.refs.map(keyOf));
    // The document of the start, so that what moves is where it was and nothing snaps to itself.
    const found = this.#context.snap({ ...stroke, at: meant }, drag.anchor, drag.corner === undefined ? withCables(this.#base!, drag.refs, moving) : moving);
    const to = found?.point ?? meant;
    const by: Point2 = [to[0] - drag.anchor[0], to[1] - drag.anchor[1]];
    drag.gesture.preview(
      drag.corner === undefined ? moveChanges(this.#base!, drag.refs, by) : vertexChanges(this.#base!, drag.refs[0]!, drag.corner, to),
    );
    const far = distance(drag.anchor, to);
    this.sketch = { snap: found, readout: { at: to, text: this.#context.length(far) }, line: [drag.anchor, to] };
  }

  #base: JobSessionDocument | undefined;

  up(stroke: Stroke): void {
    const { selection } = this.#context.session;
    if (this.#box && this.#moved) this.#catch(this.#box, stroke.at);
    else if (this.#drag?.gesture) this.#drag.gesture.commit();
    else if (this.#picked && stroke.shift) selection.toggle(this.#picked);
    else if (this.#picked) selection.set([this.#picked]);
    else selection.clear();
    this.#end();
  }

  cancelStroke(): void {
    this.#drag?.gesture?.cancel();
    this.#end();
  }

  cancel(): void {
    if (this.#drag) this.cancelStroke();
    else this.#context.session.selection.clear();
  }

  #end(): void {
    this.#drag = undefined;
    this.#box = undefined;
    this.#base = undefined;
    this.sketch = {};
  }

  // A corner of the one selected outline or route, but not a route's end: that belongs to what it is fastened to.
  #cornerAt(stroke: Stroke): { refs: readonly ThingRef[]; corner: number; anchor: Point2 } | undefined {
    const { selection, document } = this.#context.session;
    const ref = selection.single;
    const thing = ref && this.#context.takes(ref.kind) ? findThing(document, ref.id, ref.kind) : undefined;
    if (!ref || !thing) return undefined;
    const [, points] = cornersOf(thing);
    const corner = points.findIndex((point, i) => distance(point, stroke.at) <= stroke.radiusM / 2 && !(thing.kind === 'cable' && (i === 0 || i === points.length - 1)));
    return corner < 0 ? undefined : { refs: [ref], corner, anchor: points[corner]! };
  }

  #catch(a: Point2, b: Point2): void {
    const inside = ([x, y]: Point2): boolean => x >= Math.min(a[0], b[0]) && x <= Math.max(a[0], b[0]) && y >= Math.min(a[1], b[1]) && y <= Math.max(a[1], b[1]);
    const { session } = this.#context;
    const refs: ThingRef[] = [];
    for (const thing of thingsOf(session.document)) {
      if (thing.kind === 'output' || !this.#context.takes(thing.kind)) continue;
      const [, corners] = cornersOf(thing);
      const place = placeOf(thing);
      const all = place ? [place] : corners;
      if (all.length > 0 && all.every(inside)) refs.push({ kind: thing.kind, id: thing.value.id });
    }
    session.selection.set(refs);
    this.#context.say(`${refs.length} things selected.`);
  }
}

type JobSessionDocument = ToolContext['session']['document'];

// Cables that hang on what moves go along, so they are no place to snap to either.
function withCables(job: JobSessionDocument, refs: readonly ThingRef[], keys: Set<string>): ReadonlySet<string> {
  const places = refs.flatMap((ref) => {
    const thing = findThing(job, ref.id, ref.kind);
    const place = thing && placeOf(thing);
    return place ? [place] : [];
  });
  for (const cable of job.cables ?? []) {
    const ends = [cable.path?.[0], cable.path?.at(-1)];
    const hangs = refs.some(({ id }) => id === cable.from || id === cable.to) || ends.some((end) => end && places.some((place) => same(place, end)));
    if (hangs) keys.add(`cable/${cable.id}`);
  }
  return keys;
}

function moveLabel({ session }: ToolContext, refs: readonly ThingRef[]): string {
  if (refs.length > 1) return `Move ${refs.length} things`;
  const thing = findThing(session.document, refs[0]!.id, refs[0]!.kind);
  return thing ? `Move ${wordFor(thing.kind)} ${nameOf(thing)}` : 'Move';
}
