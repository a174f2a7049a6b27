// SPDX-License-Identifier: Apache-2.0
// The operations that lead from one document to another, so that a computed change (a cure, an import, the other side
// of a conflict) is one undoable step that touches only what differs.
import type { Operation, Path, Step } from './operations';

type Fields = Record<string, unknown>;

export function difference(before: unknown, after: unknown, path: Path = []): Operation[] {
  if (equal(before, after)) return [];
  if (isFields(before) && isFields(after)) return betweenObjects(before, after, path);
  if (isIdList(before) && isIdList(after)) return betweenLists(before, after, path);
  return [{ op: 'set', path, value: after }];
}

function betweenObjects(before: Fields, after: Fields, path: Path): Operation[] {
  const keys = new Set([...Object.keys(before), ...Object.keys(after)]);
  return [...keys].flatMap((key) => difference(before[key], after[key], [...path, key]));
}

interface Member {
  readonly id: string;
}

// Members are known by their id; a list whose order changed is set as a whole.
function betweenLists(before: readonly Member[], after: readonly Member[], path: Path): Operation[] {
  const old = new Map(before.map((member) => [member.id, member]));
  const kept = new Set(after.map(({ id }) => id).filter((id) => old.has(id)));
  const order = (list: readonly Member[]): string => list.filter(({ id }) => kept.has(id)).map(({ id }) => id).join('\n');
  if (order(before) !== order(after)) return [{ op: 'set', path, value: after }];
  const removed = before.filter(({ id }) => !kept.has(id)).map(({ id }): Operation => ({ op: 'remove', path: [...path, { id }] }));
  const changed = after.flatMap((member, index): Operation[] => {
    const former = old.get(member.id);
    const step: Step = { id: member.id };
    return former === undefined ? [{ op: 'insert', path, value: member, index }] : difference(former, member, [...path, step]);
  });
  return [...removed, ...changed];
}

const isFields = (value: unknown): value is Fields =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

function isIdList(value: unknown): value is readonly Member[] {
  if (!Array.isArray(value)) return false;
  const ids = value.map((member: unknown) => (isFields(member) ? member.id : undefined));
  return ids.every((id) => typeof id === 'string') && new Set(ids).size === ids.length;
}

export function equal(a: unknown, b: unknown): boolean {
  if (a === b) return true;
  if (Array.isArray(a) && Array.isArray(b)) return a.length === b.length && a.every((item, index) => equal(item, b[index]));
  if (!isFields(a) || !isFields(b)) return false;
  const keys = Object.keys(a);
  return keys.length === Object.keys(b).length && keys.every((key) => key in b && equal(a[key], b[key]));
}
