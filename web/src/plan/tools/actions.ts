// SPDX-License-Identifier: Apache-2.0
// What can be done with what is selected, as commands. Each is one step of undo.
import type { JobDocument, Point2 } from '../../job/document';
import { alignThings, copyThings, spaceEvenly } from '../../job/edits/arrange';
import { lengthOf } from '../../job/edits/geometry';
import { moveChanges, type ThingRef } from '../../job/edits/move';
import { splitCable } from '../../job/edits/place';
import { removeCommand } from '../../job/edits/remove';
import { routesOf } from '../../job/edits/routes';
import { findThing, thingsOf } from '../../job/lookup';
import type { Operation } from '../../job/operations';
import type { JobSession } from '../../session/job-session.svelte';
import type { ActionId } from './tools';

const copyAsideM = 1;
const turnDeg = 15;

/** Does it; what to say aloud, or undefined where it does not apply. */
export function act(session: JobSession, id: ActionId, refs: readonly ThingRef[]): string | undefined {
  const job = session.document;
  switch (id) {
    case 'remove': {
      const command = removeCommand(job, refs);
      if (!command) return undefined;
      session.store.run(command);
      session.selection.clear();
      return `${command.label}. Undo brings it back.`;
    }
    case 'copy': {
      const copied = copyThings(job, refs, [copyAsideM, -copyAsideM]);
      if (!copied) return undefined;
      session.store.run(copied.command);
      session.selection.set(copied.made);
      return `${copied.command.label}.`;
    }
    case 'align':
    case 'space': {
      const command = id === 'align' ? alignThings(job, refs) : spaceEvenly(job, refs);
      if (!command || command.changes.length === 0) return undefined;
      session.store.run(command);
      return `${command.label}.`;
    }
    case 'turn':
      return turn(session, refs);
    case 'split':
      return split(session, refs);
  }
}

function turn(session: JobSession, refs: readonly ThingRef[]): string | undefined {
  const changes: Operation[] = [];
  for (const ref of refs) {
    const thing = ref.kind === 'luminaire' ? findThing(session.document, ref.id, 'luminaire') : undefined;
    if (thing?.kind !== 'luminaire') continue;
    const value = ((thing.value.azimuth_deg ?? 0) + turnDeg) % 360;
    changes.push({ op: 'set', path: [...thing.path, 'azimuth_deg'], value });
  }
  if (changes.length === 0) return undefined;
  session.store.run({ label: 'Turn the aim', changes }, `turn ${refs.map(({ id }) => id).join()}`);
  return 'Aim turned by 15 degrees.';
}

// At half of its length.
function split(session: JobSession, refs: readonly ThingRef[]): string | undefined {
  const ref = refs.length === 1 && refs[0]!.kind === 'cable' ? refs[0] : undefined;
  const route = ref && routesOf(session.document).get(ref.id);
  if (!ref || !route || route.length < 2) return undefined;
  const half = splitCable(session.document, ref.id, pointAlong(route, lengthOf(route) / 2));
  if (!half) return undefined;
  session.store.run({ label: 'Set a joint into the cable', changes: half.changes });
  session.selection.set([{ kind: 'joint', id: half.id }]);
  return 'A joint in the middle of the cable.';
}

function pointAlong(route: readonly Point2[], atM: number): Point2 {
  let left = atM;
  for (let i = 0; i + 1 < route.length; i += 1) {
    const [a, b] = [route[i]!, route[i + 1]!];
    const stretch = Math.hypot(b[0] - a[0], b[1] - a[1]);
    if (left <= stretch && stretch > 0) return [a[0] + ((b[0] - a[0]) * left) / stretch, a[1] + ((b[1] - a[1]) * left) / stretch];
    left -= stretch;
  }
  return route.at(-1)!;
}

/** Moves by the arrow keys: a row of presses is one step of undo. */
export function nudge(session: JobSession, refs: readonly ThingRef[], by: Point2): boolean {
  const changes = moveChanges(session.document, refs, by);
  if (changes.length === 0) return false;
  const label = refs.length === 1 ? 'Move by the arrow keys' : `Move ${refs.length} things by the arrow keys`;
  session.store.run({ label, changes }, `nudge ${refs.map(({ kind, id }) => kind + id).join()}`);
  return true;
}

export function everything(job: JobDocument, takes: (kind: ThingRef['kind']) => boolean): ThingRef[] {
  return [...thingsOf(job)].filter(({ kind }) => kind !== 'output' && takes(kind)).map(({ kind, value }) => ({ kind, id: value.id }));
}
