// SPDX-License-Identifier: Apache-2.0
// What a tool of the plan is: it gets strokes of one pointer in site metres and keys, says what to draw over the plan
// and what may be typed. Panning, zooming and two fingers are the plan's own and never reach it.
import type { Point2, Polyline } from '../../job/document';
import type { ThingRef } from '../../job/edits/move';
import type { ThingKind } from '../../job/lookup';
import type { Layers } from '../../session/layers.svelte';
import type { JobSession } from '../../session/job-session.svelte';
import type { Snap } from './snap';

export interface Stroke {
  readonly at: Point2;
  /** The thing under the pointer that may be picked. */
  readonly over: ThingRef | undefined;
  /** 20 px in metres. */
  readonly radiusM: number;
  readonly touch: boolean;
  readonly shift: boolean;
  /** Held to place freely, without snapping. */
  readonly free: boolean;
}

/** What is drawn over the plan while a tool works. */
export interface Sketch {
  readonly line?: Polyline;
  readonly snap?: Snap | undefined;
  readonly box?: readonly [Point2, Point2];
  /** A word at a point: the length of the stretch in hand. */
  readonly readout?: { readonly at: Point2; readonly text: string };
}

export interface TypedWish {
  readonly label: string;
  /** Takes a length in metres and maybe an angle in degrees; false where it makes no sense now. */
  readonly take: (lengthM: number, angleDeg: number | undefined) => boolean;
}

export interface Tool {
  readonly sketch: Sketch;
  /** What to do next, in one sentence; read aloud when it changes. */
  readonly hint: string;
  /** Whether one finger draws (true) or moves the view when it does not touch a thing (false). */
  readonly draws: boolean;
  /** What may be typed now, if anything. */
  readonly typed?: TypedWish | undefined;
  /** Something unfinished that Enter or the button ends, and that Esc gives up. */
  readonly unfinished: boolean;
  hover(stroke: Stroke): void;
  /** Returns false where the stroke should move the view instead. */
  down(stroke: Stroke): boolean;
  move(stroke: Stroke): void;
  up(stroke: Stroke): void;
  /** A second finger, or Esc in the middle of a stroke: as if it had not begun. */
  cancelStroke(): void;
  finish?(): void;
  stepBack?(): void;
  cancel(): void;
}

export interface ToolContext {
  readonly session: JobSession;
  readonly layers: Layers;
  takes(kind: ThingKind): boolean;
  snap(stroke: Stroke, from?: Point2, without?: ReadonlySet<string>): Snap | undefined;
  length(metres: number): string;
  say(words: string): void;
}
