// SPDX-License-Identifier: Apache-2.0
// The keyboard on the plan: everything that a hand can do there. Single letters only where the person has them on.
import type { Point2 } from '../job/document';
import { letterKeys } from '../ui/keys.svelte';
import { displayUnit } from '../units/quantity';
import { nudge } from './tools/actions';
import { actionEntries, toolEntries } from './tools/tools';
import type { Toolbox } from './tools/toolbox.svelte';

export interface KeyActions {
  zoom(factor: number): void;
  fit(): void;
  pan(dxPx: number, dyPx: number): void;
  /** A digit was pressed: the field for lengths takes over. */
  typing(first: string): void;
  cross(): Point2;
  moveCross(to: Point2): void;
  /** As a tap at the cross. */
  press(): void;
  /** Opens the planning of the wiring. */
  planWiring(): void;
}

const arrows: Record<string, Point2> = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };
const panPx = 40;

export class PlanKeys {
  #box: Toolbox;
  #actions: KeyActions;

  constructor(box: Toolbox, actions: KeyActions) {
    this.#box = box;
    this.#actions = actions;
  }

  /** True where the key meant something here. */
  take(event: KeyboardEvent): boolean {
    const key = event.key.length === 1 ? event.key.toLowerCase() : event.key;
    const held = event.ctrlKey || event.metaKey;
    if (held) return this.#withControl(key);
    if (event.altKey) return false;
    return this.#arrow(key, event.shiftKey) || this.#word(key, event.shiftKey) || this.#letter(key);
  }

  #withControl(key: string): boolean {
    if (key === 'a') {
      this.#box.selectAll();
      return true;
    }
    const action = actionEntries.find((entry) => entry.key === `ctrl+${key}`);
    if (action) this.#box.act(action.id);
    return action !== undefined;
  }

  // A tenth of a unit, or one: decimetres or tenths of feet.
  #arrow(key: string, large: boolean): boolean {
    const way = arrows[key];
    if (!way) return false;
    const { session } = this.#box;
    const unitM = displayUnit('length', session.units).toSi(large ? 1 : 0.1);
    const by: Point2 = [way[0] * unitM, way[1] * unitM];
    if (this.#box.tool.draws) {
      const [x, y] = this.#actions.cross();
      this.#actions.moveCross([x + by[0], y + by[1]]);
    } else {
      const free = session.selection.refs.filter(({ kind }) => this.#box.takes(kind));
      const px = large ? 5 * panPx : panPx;
      if (free.length === 0 || !nudge(session, free, by)) this.#actions.pan(-way[0] * px, way[1] * px);
    }
    return true;
  }

  #word(key: string, shift: boolean): boolean {
    const { tool } = this.#box;
    switch (key) {
      case 'Enter':
        if (shift) tool.finish?.();
        else if (tool.draws) this.#actions.press();
        return true;
      case 'Escape':
        if (tool.unfinished || this.#box.current === 'select') tool.cancel();
        else this.#box.take('select');
        return true;
      case 'Backspace':
        if (tool.unfinished) tool.stepBack?.();
        else this.#box.act('remove');
        return true;
      case 'Delete':
        this.#box.act('remove');
        return true;
      case '+':
      case '=':
        this.#actions.zoom(1.25);
        return true;
      case '-':
        this.#actions.zoom(0.8);
        return true;
    }
    if (/^[0-9.,]$/.test(key) && tool.typed) {
      this.#actions.typing(key);
      return true;
    }
    if (key === '0') {
      this.#actions.fit();
      return true;
    }
    return false;
  }

  #letter(key: string): boolean {
    if (!letterKeys()) return false;
    if (key === 'w') {
      this.#actions.planWiring();
      return true;
    }
    const tool = toolEntries.find((entry) => entry.key === key);
    if (tool) this.#box.take(tool.id);
    const action = tool ? undefined : actionEntries.find((entry) => entry.key === key);
    if (action) this.#box.act(action.id);
    return tool !== undefined || action !== undefined;
  }
}
