// SPDX-License-Identifier: Apache-2.0
// The keyboard on the photograph: everything that a hand can do there. Arrows move the cross while something is drawn,
// else what is in hand, else the view; Alt is fine, Shift coarse.
import { letterKeys } from '../ui/keys.svelte';
import type { Pixel } from './stage-frame';
import type { PhotoTool } from './tool';

export interface StageActions {
  tool(): PhotoTool;
  zoom(factor: number): void;
  fit(): void;
  pan(dxPx: number, dyPx: number): void;
  cross(): Pixel;
  /** Elements of the photograph for one pixel of the screen. */
  screenPx(): number;
  moveCross(to: Pixel): void;
  /** As a tap at the cross. */
  press(): void;
  compare(held: boolean): void;
}

const arrows: Readonly<Record<string, Pixel>> = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
const panPx = 40;
const crossPx = 8;

export class StageKeys {
  #actions: StageActions;

  constructor(actions: StageActions) {
    this.#actions = actions;
  }

  /** True where the key meant something here. */
  down(event: KeyboardEvent): boolean {
    if (event.ctrlKey || event.metaKey) return false;
    const way = arrows[event.key];
    if (way) return this.#arrow(way, event);
    return this.#word(event);
  }

  up(event: KeyboardEvent): void {
    if (event.key.toLowerCase() === 'c') this.#actions.compare(false);
  }

  #arrow([dx, dy]: Pixel, { shiftKey, altKey }: KeyboardEvent): boolean {
    const { tool, cross, moveCross, pan, screenPx } = this.#actions;
    if (tool().draws) {
      const [x, y] = cross();
      const step = altKey ? 1 : screenPx() * crossPx * (shiftKey ? 5 : 1);
      moveCross([x + dx * step, y + dy * step]);
      return true;
    }
    const step = shiftKey ? 10 : 1;
    if (!tool().nudge([dx * step, dy * step])) pan(-dx * panPx, -dy * panPx);
    return true;
  }

  #word({ key, shiftKey }: KeyboardEvent): boolean {
    const { tool, zoom, fit, press, compare } = this.#actions;
    switch (key) {
      case 'Enter':
        if (shiftKey) tool().finish();
        else if (tool().draws) press();
        return true;
      case 'Escape':
        return tool().cancel();
      case 'Backspace':
        tool().stepBack();
        return true;
      case 'Delete':
        tool().remove();
        return true;
      case '+':
      case '=':
        zoom(1.25);
        return true;
      case '-':
        zoom(0.8);
        return true;
      case '0':
        fit();
        return true;
    }
    if (key.toLowerCase() !== 'c' || !letterKeys()) return false;
    compare(true);
    return true;
  }
}
