// SPDX-License-Identifier: Apache-2.0
// The tools and actions of the plan in one table: the bar, the keys and the help sheet are all made from it, so that no
// shortcut is without a button.
import type { IconName } from '../../ui/icons';

export type ToolId = 'select' | 'light' | 'transformer' | 'cable' | 'area' | 'spot' | 'scale' | 'tape' | 'measure';

export interface ToolEntry {
  readonly id: ToolId;
  readonly title: string;
  readonly icon: IconName;
  /** A single letter; does nothing where the person has turned such keys off. */
  readonly key: string;
}

export const toolEntries: readonly ToolEntry[] = [
  { id: 'select', title: 'Select and move', icon: 'pointer', key: 'v' },
  { id: 'light', title: 'Place a light', icon: 'lamp', key: 'l' },
  { id: 'transformer', title: 'Place a transformer', icon: 'transformer', key: 't' },
  { id: 'cable', title: 'Lay a cable', icon: 'cable', key: 'c' },
  { id: 'area', title: 'Draw an area, a boundary or a sleeve', icon: 'area', key: 'g' },
  { id: 'spot', title: 'Place a tree, a receptacle or a point', icon: 'tree', key: 'p' },
  { id: 'scale', title: 'Set the scale of the picture', icon: 'picture', key: 'k' },
  { id: 'tape', title: 'Place a point by two tape measures', icon: 'locate', key: 'd' },
  { id: 'measure', title: 'Measure', icon: 'measure', key: 'm' },
];

export type ActionId = 'remove' | 'copy' | 'align' | 'space' | 'turn' | 'split';

export interface ActionEntry {
  readonly id: ActionId;
  readonly title: string;
  /** As KeyboardEvent.key in lower case; `ctrl+` before it where Ctrl or Command is held. */
  readonly key: string;
  readonly shown: string;
  /** How many selected things it takes at least. */
  readonly least: number;
}

export const actionEntries: readonly ActionEntry[] = [
  { id: 'remove', title: 'Remove', key: 'delete', shown: 'Delete', least: 1 },
  { id: 'copy', title: 'Copy beside', key: 'ctrl+d', shown: 'Ctrl D', least: 1 },
  { id: 'turn', title: 'Turn aim 15°', key: 'r', shown: 'R', least: 1 },
  { id: 'split', title: 'Joint in the middle', key: 'j', shown: 'J', least: 1 },
  { id: 'align', title: 'Align', key: 'a', shown: 'A', least: 2 },
  { id: 'space', title: 'Space evenly', key: 'e', shown: 'E', least: 3 },
];

/** What the keyboard does besides, for the help sheet. */
export const otherKeys: readonly (readonly [string, string])[] = [
  ['W', 'Plan the wiring'],
  ['Arrow keys', 'Move what is selected, else the view; with a drawing tool, the cross'],
  ['Shift + arrow keys', 'The same in large steps'],
  ['Enter', 'Set a point at the cross'],
  ['Shift + Enter', 'Finish what is being drawn'],
  ['Backspace', 'Take the last point back'],
  ['Esc', 'Give up, then back to Select'],
  ['Digits', 'Type the length of the stretch, and the angle behind <'],
  ['Alt, held', 'Place freely, without snapping'],
  ['Ctrl A', 'Select everything that is not locked'],
  ['Ctrl Z, Ctrl Y', 'Undo, redo'],
  ['+, −, 0', 'Zoom in, zoom out, show all'],
];
