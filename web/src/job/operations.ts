// SPDX-License-Identifier: Apache-2.0
// Operations: the smallest edits of a document, as plain data that can be stored, sent, undone and replayed. Applying
// one shares every untouched part with the old document and keeps every key that this version does not know.
import type { JobDocument } from './document';

/** A step into an object (key), a list by place (number), or a list by the id of its member. */
export type Step = string | number | { readonly id: string };
export type Path = readonly Step[];

export type Operation =
  /** Sets a key or list member; `value` undefined removes the key. Missing objects on the way are made. */
  | { readonly op: 'set'; readonly path: Path; readonly value: unknown }
  /** Puts a member into the list at `path` (made if missing), before `index`, or at its end. */
  | { readonly op: 'insert'; readonly path: Path; readonly value: unknown; readonly index?: number }
  /** Takes the member that the path's last step names out of its list. */
  | { readonly op: 'remove'; readonly path: Path };

/** What a person did, in words, and the operations that do it. */
export interface Command {
  readonly label: string;
  readonly changes: readonly Operation[];
}

export interface Applied {
  readonly document: JobDocument;
  /** Undoes it, in the order to apply. */
  readonly inverse: readonly Operation[];
}

/** An operation does not fit the document: a bug of the caller, or an edit of a copy that has changed since. */
export class OperationError extends Error {}

type Json = Record<string, unknown> | unknown[];

export function applyOperations(document: JobDocument, operations: readonly Operation[]): Applied {
  let result: unknown = document;
  const inverse: Operation[] = [];
  for (const operation of operations) {
    const [next, undo] = applyOne(result, operation, operation.path, []);
    result = next;
    inverse.unshift(undo);
  }
  return { document: result as JobDocument, inverse };
}

type Outcome = readonly [unknown, Operation];

function applyOne(value: unknown, operation: Operation, rest: Path, walked: Path): Outcome {
  if (operation.op === 'insert' && rest.length === 0) return insertHere(value, operation, walked);
  const step = rest[0];
  if (step === undefined) throw new OperationError('An operation needs a path.');
  if (rest.length === 1 && operation.op === 'set') return setHere(value, operation, step, walked);
  if (rest.length === 1 && operation.op === 'remove') return removeHere(value, step, walked);
  return descend(value, operation, step, rest, walked);
}

function descend(value: unknown, operation: Operation, step: Step, rest: Path, walked: Path): Outcome {
  const here = container(value, step, walked);
  const key = keyOf(here, step, walked);
  const child = (here as Record<string | number, unknown>)[key];
  if (child === undefined && typeof key === 'string' && operation.op !== 'remove') {
    // Missing parts are made; undone, the whole part goes again.
    const [made] = applyOne(undefined, operation, rest.slice(1), [...walked, step]);
    return [withMember(here, key, made), { op: 'set', path: [...walked, step], value: undefined }];
  }
  const [next, undo] = applyOne(child, operation, rest.slice(1), [...walked, step]);
  return [withMember(here, key, next), undo];
}

function setHere(value: unknown, operation: Operation & { op: 'set' }, step: Step, walked: Path): Outcome {
  const here = container(value, step, walked);
  const key = keyOf(here, step, walked);
  const before = (here as Record<string | number, unknown>)[key];
  if (Array.isArray(here) && operation.value === undefined) {
    throw new OperationError(`${describePath([...walked, step])}: a list member is removed by "remove".`);
  }
  return [withMember(here, key, operation.value), undoSet(operation, step, walked, before)];
}

function undoSet(operation: Operation & { op: 'set' }, step: Step, walked: Path, before: unknown): Operation {
  // A member found by its id may have been given a new one: undo must look for that.
  const newId = typeof step === 'object' ? (operation.value as { id?: unknown } | undefined)?.id : undefined;
  const back = typeof newId === 'string' ? { id: newId } : step;
  return { op: 'set', path: [...walked, back], value: before };
}

function insertHere(value: unknown, operation: Operation & { op: 'insert' }, walked: Path): Outcome {
  const list = value === undefined ? [] : value;
  if (!Array.isArray(list)) throw new OperationError(`${describePath(walked)} is no list.`);
  const index = Math.min(operation.index ?? list.length, list.length);
  const id = (operation.value as { id?: unknown } | null)?.id;
  const step: Step = typeof id === 'string' ? { id } : index;
  return [list.toSpliced(index, 0, operation.value), { op: 'remove', path: [...walked, step] }];
}

function removeHere(value: unknown, step: Step, walked: Path): Outcome {
  if (!Array.isArray(value)) throw new OperationError(`${describePath(walked)} is no list.`);
  const index = keyOf(value, step, walked) as number;
  if (index >= value.length) throw new OperationError(`${describePath([...walked, step])} is not there.`);
  return [value.toSpliced(index, 1), { op: 'insert', path: walked, value: value[index], index }];
}

function container(value: unknown, step: Step, walked: Path): Json {
  if (value === undefined && typeof step === 'string') return {};
  if (typeof value !== 'object' || value === null) throw new OperationError(`${describePath(walked)} has no parts.`);
  return value as Json;
}

function keyOf(here: Json, step: Step, walked: Path): string | number {
  if (Array.isArray(here)) {
    if (typeof step === 'number') return step;
    const id = typeof step === 'object' ? step.id : step;
    const index = here.findIndex((member) => (member as { id?: unknown } | null)?.id === id);
    if (index < 0) throw new OperationError(`${describePath([...walked, step])} is not there.`);
    return index;
  }
  if (typeof step === 'string') return step;
  throw new OperationError(`${describePath(walked)} is no list.`);
}

function withMember(here: Json, key: string | number, value: unknown): Json {
  if (Array.isArray(here)) {
    const copy = [...here];
    copy[key as number] = value;
    return copy;
  }
  if (value !== undefined) return { ...here, [key]: value };
  const copy = { ...here };
  delete copy[key];
  return copy;
}

export function describePath(path: Path): string {
  return `/${path.map((step) => (typeof step === 'object' ? step.id : String(step))).join('/')}`;
}
