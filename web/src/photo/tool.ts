// SPDX-License-Identifier: Apache-2.0
// What a tool of the photograph is told and what it shows. Places are elements of the photograph.
import type { Pixel } from './stage-frame';

export interface PhotoStroke {
  readonly at: Pixel;
  /** How far from a thing still counts as on it, in elements: wider for a finger. */
  readonly radiusPx: number;
  readonly touch: boolean;
}

export interface PhotoTool {
  /** It draws: each press is its own, and the keyboard has a cross. */
  readonly draws: boolean;
  /** What the next press does, in words. */
  readonly hint: string;
  /** A press begins; false: it moves the view instead. */
  down(stroke: PhotoStroke): boolean;
  move(stroke: PhotoStroke): void;
  up(stroke: PhotoStroke): void;
  hover(at: Pixel): void;
  /** A press on nothing that did not move. */
  tap(stroke: PhotoStroke): void;
  /** Takes back what the press had begun. */
  cancelStroke(): void;
  /** Moves what is in hand by elements of the photograph; false where nothing is. */
  nudge(by: Pixel): boolean;
  /** Ends what is being drawn, where it has enough. */
  finish(): void;
  /** Takes the last point back. */
  stepBack(): void;
  /** Lets go of everything; false where nothing was in hand. */
  cancel(): boolean;
  /** Removes what is selected. */
  remove(): void;
}
