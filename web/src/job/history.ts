// SPDX-License-Identifier: Apache-2.0
// Undo and redo as values: what was done, in order, with both directions as operations. A history can be stored beside
// the document and goes on after a restart.
import type { Command, Operation } from './operations';

export interface Entry {
  readonly label: string;
  readonly forward: readonly Operation[];
  readonly backward: readonly Operation[];
  /** Entries that follow one another with the same key are one step for a person: typing, nudging. */
  readonly merge?: string;
}

export interface History {
  readonly entries: readonly Entry[];
  /** Entries before it are done, those after it undone. */
  readonly position: number;
}

export const emptyHistory: History = { entries: [], position: 0 };
export const mostEntries = 500;

/** The history after a command was done; what had been undone is gone. */
export function record(history: History, command: Command, inverse: readonly Operation[], merge?: string): History {
  const done = history.entries.slice(0, history.position);
  const last = done.at(-1);
  if (merge !== undefined && last?.merge === merge) {
    done[done.length - 1] = {
      label: command.label,
      merge,
      forward: compact([...last.forward, ...command.changes]),
      backward: compact([...inverse, ...last.backward]),
    };
  } else {
    const entry = { label: command.label, forward: command.changes, backward: inverse };
    done.push(merge === undefined ? entry : { ...entry, merge });
  }
  const entries = done.slice(-mostEntries);
  return { entries, position: entries.length };
}

/** No later command joins the last entry. */
export function seal(history: History): History {
  const last = history.entries[history.position - 1];
  if (last?.merge === undefined) return history;
  const sealed: Entry = { label: last.label, forward: last.forward, backward: last.backward };
  return { ...history, entries: history.entries.with(history.position - 1, sealed) };
}

export const undoable = (history: History): Entry | undefined => history.entries[history.position - 1];
export const redoable = (history: History): Entry | undefined => history.entries[history.position];

const samePath = (a: Operation, b: Operation): boolean => JSON.stringify(a.path) === JSON.stringify(b.path);
const onlySets = (operations: readonly Operation[]): boolean => operations.every(({ op }) => op === 'set');

// Of several "set" at one place only the last counts. Backwards too: the value from before the first is set last.
function compact(operations: readonly Operation[]): readonly Operation[] {
  if (!onlySets(operations)) return operations;
  return operations.filter((one, index) => !operations.slice(index + 1).some((later) => samePath(one, later)));
}

