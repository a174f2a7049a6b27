// SPDX-License-Identifier: Apache-2.0
// The document store: one immutable document that changes by commands only, with undo and redo. Views read `document`
// and re-render; nobody writes into it.
import type { JobDocument } from './document';
import { emptyHistory, record, redoable, seal, undoable, type History } from './history';
import { applyOperations, type Command, type Operation } from './operations';

export type ChangeCause = 'edit' | 'preview' | 'undo' | 'redo' | 'replace';
export type ChangeListener = (document: JobDocument, cause: ChangeCause, label: string) => void;

/** An edit in the making: shown while the hand moves, one step of undo once it is committed. */
export interface Gesture {
  /** Shows the document that the gesture started from with these operations on top. */
  preview(changes: readonly Operation[]): void;
  commit(): void;
  cancel(): void;
}

export class JobStore {
  #document: JobDocument = $state.raw() as JobDocument;
  #history: History = $state.raw(emptyHistory);
  #listeners = new Set<ChangeListener>();
  #gesture: Gesture | undefined;

  constructor(document: JobDocument, history: History = emptyHistory) {
    this.#document = document;
    this.#history = history;
  }

  get document(): JobDocument {
    return this.#document;
  }

  get history(): History {
    return this.#history;
  }

  get undoLabel(): string | undefined {
    return undoable(this.#history)?.label;
  }

  get redoLabel(): string | undefined {
    return redoable(this.#history)?.label;
  }

  /** Does a command. With `merge`, commands that follow one another under the same key are one step of undo. */
  run(command: Command, merge?: string): void {
    if (command.changes.length === 0) return;
    this.#gesture?.commit();
    const { document, inverse } = applyOperations(this.#document, command.changes);
    this.#history = record(this.#history, command, inverse, merge);
    this.#show(document, 'edit', command.label);
  }

  /** Adds to what is never taken back (the log of a visit): no step of undo, and the steps before it stay. */
  append(label: string, changes: readonly Operation[]): void {
    this.#gesture?.commit();
    const { document } = applyOperations(this.#document, changes);
    this.#show(document, 'edit', label);
  }

  /** Ends a row of merged commands, e.g. when a field loses the focus. */
  seal(): void {
    this.#history = seal(this.#history);
  }

  /** Starts a drag. One at a time: a new one commits the one before. */
  begin(label: string): Gesture {
    this.#gesture?.commit();
    const base = this.#document;
    let changes: readonly Operation[] = [];
    const end = (): boolean => {
      if (this.#gesture !== gesture) return false;
      this.#gesture = undefined;
      return true;
    };
    const gesture: Gesture = {
      preview: (next) => {
        if (this.#gesture !== gesture) return;
        const { document } = applyOperations(base, next);
        changes = next;
        this.#show(document, 'preview', label);
      },
      commit: () => {
        if (!end() || changes.length === 0) return;
        const { document, inverse } = applyOperations(base, changes);
        this.#history = record(this.#history, { label, changes }, inverse);
        this.#show(document, 'edit', label);
      },
      cancel: () => {
        if (end() && this.#document !== base) this.#show(base, 'preview', label);
      },
    };
    this.#gesture = gesture;
    return gesture;
  }

  undo(): string | undefined {
    this.#gesture?.cancel();
    const entry = undoable(this.#history);
    if (!entry) return undefined;
    const { document } = applyOperations(this.#document, entry.backward);
    this.#history = { ...this.#history, position: this.#history.position - 1 };
    this.#show(document, 'undo', entry.label);
    return entry.label;
  }

  redo(): string | undefined {
    this.#gesture?.cancel();
    const entry = redoable(this.#history);
    if (!entry) return undefined;
    const { document } = applyOperations(this.#document, entry.forward);
    this.#history = { ...this.#history, position: this.#history.position + 1 };
    this.#show(document, 'redo', entry.label);
    return entry.label;
  }

  /** Another document in its place (the other side of a conflict, an older revision), visits left out: undoable as one step. */
  replace(document: JobDocument, label: string): void {
    this.#gesture?.cancel();
    const keys = new Set([...Object.keys(this.#document), ...Object.keys(document)]);
    // Logs only grow: who joins them is the session.
    keys.delete('visits');
    const before = this.#document as unknown as Record<string, unknown>;
    const after = document as unknown as Record<string, unknown>;
    const changes: Operation[] = [];
    for (const key of keys) {
      if (before[key] !== after[key]) changes.push({ op: 'set', path: [key], value: after[key] });
    }
    if (changes.length === 0) return;
    const { document: next, inverse } = applyOperations(this.#document, changes);
    this.#history = record(this.#history, { label, changes }, inverse);
    this.#show(next, 'replace', label);
  }

  /** Called after each change; returns how to stop that. */
  listen(listener: ChangeListener): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  #show(document: JobDocument, cause: ChangeCause, label: string): void {
    this.#document = document;
    for (const listener of this.#listeners) listener(document, cause, label);
  }
}
