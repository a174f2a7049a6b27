// SPDX-License-Identifier: Apache-2.0
// Place a light or a transformer: a tap sets it where the mark stands; for a light, a drag from there gives its aim.
import type { LuminaireItem, Point2, TransformerItem } from '../../job/document';
import { angleDegOf, distance } from '../../job/edits/geometry';
import { placeLuminaire, placeTransformer } from '../../job/edits/place';
import type { Sketch, Stroke, Tool, ToolContext } from './tool';

export type Placeable =
  | { readonly kind: 'luminaire'; readonly item: LuminaireItem }
  | { readonly kind: 'transformer'; readonly item: TransformerItem };

export class PlaceTool implements Tool {
  readonly draws = true;
  readonly unfinished = false;
  sketch: Sketch = $state.raw({});
  #context: ToolContext;
  #what: () => Placeable | undefined;
  #noun: string;
  #spot: Point2 | undefined;
  #aimDeg: number | undefined;

  constructor(context: ToolContext, noun: string, what: () => Placeable | undefined) {
    this.#context = context;
    this.#noun = noun;
    this.#what = what;
  }

  get hint(): string {
    const what = this.#what();
    if (!what) return `Choose a ${this.#noun} from the catalogue first.`;
    const title = what.item.title ?? what.item.id;
    return what.kind === 'luminaire' ? `Tap where ${title} stands; drag from there to aim it.` : `Tap where ${title} hangs.`;
  }

  hover(stroke: Stroke): void {
    const found = this.#context.snap(stroke);
    this.sketch = { snap: found ?? { point: stroke.at, name: '' } };
  }

  down(stroke: Stroke): boolean {
    this.#aimDeg = undefined;
    this.#spot = this.#context.snap(stroke)?.point ?? stroke.at;
    // A finger hides its place: it may still be corrected until it leaves, so a touch aims by a second step.
    this.hover(stroke);
    return true;
  }

  move(stroke: Stroke): void {
    if (stroke.touch || this.#what()?.kind !== 'luminaire') {
      this.#spot = this.#context.snap(stroke)?.point ?? stroke.at;
      this.hover(stroke);
      return;
    }
    const spot = this.#spot!;
    if (distance(spot, stroke.at) < stroke.radiusM / 2) return;
    const turn = stroke.free ? angleDegOf(spot, stroke.at) : Math.round(angleDegOf(spot, stroke.at) / 15) * 15;
    this.#aimDeg = turn;
    this.sketch = { line: [spot, stroke.at], readout: { at: stroke.at, text: `${Math.round(azimuthOf(turn, this.#northDeg))}°` } };
  }

  up(): void {
    const what = this.#what();
    const spot = this.#spot;
    this.#spot = undefined;
    this.sketch = {};
    if (!what || !spot) return;
    const { session } = this.#context;
    const aim = this.#aimDeg === undefined ? undefined : azimuthOf(this.#aimDeg, this.#northDeg);
    const placed =
      what.kind === 'luminaire' ? placeLuminaire(session.document, what.item, spot, aim) : placeTransformer(session.document, what.item, spot);
    session.store.run(placed.command);
    session.selection.set([placed.made]);
    this.#context.say(`${placed.command.label}.`);
  }

  cancelStroke(): void {
    this.#spot = undefined;
    this.sketch = {};
  }

  cancel(): void {
    this.cancelStroke();
  }

  get #northDeg(): number {
    return this.#context.session.document.plan?.north_deg ?? 90;
  }
}

/** A direction on the plan (counter-clockwise from x) as a bearing (clockwise from north). */
export const azimuthOf = (angleDeg: number, northDeg: number): number => (((northDeg - angleDeg) % 360) + 360) % 360;
