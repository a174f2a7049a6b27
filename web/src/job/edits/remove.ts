// SPDX-License-Identifier: Apache-2.0
// Taking things out, so that what is left still makes sense: a chain closes over the gap, a fork that loses its lamp
// keeps a joint, a transformer takes its cables along. The words say what else goes.
import type { Cable, JobDocument, Joint } from '../document';
import { findThing, nameOf, placeOf, type ThingKind } from '../lookup';
import { applyOperations, type Command, type Operation } from '../operations';
import type { ThingRef } from './move';
import { joined, lengthOf } from './geometry';
import { cablesAt, routesOf } from './routes';

const words: Partial<Record<ThingKind, string>> = { luminaire: 'light', view_point: 'view point', fixed_point: 'fixed point' };
export const wordFor = (kind: ThingKind): string => words[kind] ?? kind;

/** One command for all of them; undefined where nothing is to be removed. */
export function removeCommand(job: JobDocument, refs: readonly ThingRef[]): Command | undefined {
  const changes: Operation[] = [];
  let document = job;
  const cables = (doc: JobDocument): number => doc.cables?.length ?? 0;
  let removed = 0;
  for (const ref of refs) {
    const part = removalOf(document, ref);
    if (part.length === 0) continue;
    removed += 1;
    changes.push(...part);
    document = applyOperations(document, part).document;
  }
  if (changes.length === 0) return undefined;
  const first = refs.length === 1 ? findThing(job, refs[0]!.id, refs[0]!.kind) : undefined;
  const what = first ? `${wordFor(first.kind)} ${nameOf(first)}` : `${removed} things`;
  const chosenCables = refs.filter(({ kind }) => kind === 'cable').length;
  const along = cables(job) - cables(document) - chosenCables;
  return { label: `Remove ${what}${along > 0 ? ` and ${along} ${along === 1 ? 'cable' : 'cables'}` : ''}`, changes };
}

function removalOf(job: JobDocument, ref: ThingRef): Operation[] {
  const thing = findThing(job, ref.id, ref.kind);
  if (!thing) return [];
  const itself: Operation = { op: 'remove', path: thing.path };
  switch (thing.kind) {
    case 'luminaire': {
      const place = placeOf(thing);
      return [...openEnds(job, ref.id, place && { id: ref.id, position: place }), itself];
    }
    case 'joint':
      return [...openEnds(job, ref.id, undefined), ...leadsFrom(job, ref.id), itself];
    case 'transformer':
      return [...thing.value.outputs.flatMap(({ id }) => cablesAt(job, id).map(gone)), itself];
    case 'output':
      return thing.transformer.outputs.length > 1 ? [...cablesAt(job, ref.id).map(gone), itself] : [];
    case 'sleeve':
      return [...forgotten(job.cables, 'cables', 'sleeve', ref.id), itself];
    case 'receptacle':
      return [...forgotten(job.transformers, 'transformers', 'receptacle', ref.id), itself];
    case 'fixed_point':
      return [...measuredFrom(job, ref.id), itself];
    default:
      return [itself];
  }
}

// What named the thing that goes, names nothing.
function forgotten<T extends { readonly id: string }>(list: readonly T[] | undefined, where: string, key: keyof T & string, id: string): Operation[] {
  const naming = (list ?? []).filter((one) => one[key] === id);
  return naming.map((one) => ({ op: 'set', path: [where, { id: one.id }, key], value: undefined }));
}

// A joint that was measured from a point keeps its other measure.
function measuredFrom(job: JobDocument, point: string): Operation[] {
  return (job.joints ?? []).flatMap(({ id, as_built }) => {
    const at: Operation['path'] = ['joints', { id }, 'as_built'];
    const both = [1, 2] as const;
    return both
      .filter((n) => as_built?.[`fixed_point_${n}`] === point)
      .flatMap((n): Operation[] => [
        { op: 'set', path: [...at, `fixed_point_${n}`], value: undefined },
        { op: 'set', path: [...at, `offset_${n}_m`], value: undefined },
      ]);
  });
}

const gone = ({ id }: Cable): Operation => ({ op: 'remove', path: ['cables', { id }] });

// What becomes of the cables at an id that goes: none or one, it goes too; two, they become one; more keep a joint in
// the lamp's place, where `keeping` gives one.
function openEnds(job: JobDocument, id: string, keeping: Joint | undefined): Operation[] {
  const cables = cablesAt(job, id);
  if (cables.length < 2) return cables.map(gone);
  if (cables.length === 2) return merged(job, cables[0]!, cables[1]!, id);
  if (!keeping) return cables.map(gone);
  const joint: Joint = { ...keeping, kind: cables.length === 3 ? 'branch' : 'hub' };
  return [{ op: 'insert', path: ['joints'], value: joint }];
}

// The cable nearer to the transformer goes on to where the other one went.
function merged(job: JobDocument, one: Cable, two: Cable, id: string): Operation[] {
  const [first, second] = two.to === id && one.from === id ? [two, one] : [one, two];
  const routes = routesOf(job);
  const into = routes.get(first.id)!;
  const onward = routes.get(second.id)!;
  const path = joined(first.to === id ? into : into.toReversed(), second.from === id ? onward : onward.toReversed());
  const at: Operation['path'] = ['cables', { id: first.id }];
  const end = second.from === id ? second.to : second.from;
  const changes: Operation[] = [
    { op: 'set', path: [...at, 'from'], value: first.to === id ? first.from : first.to },
    { op: 'set', path: [...at, 'to'], value: end },
    { op: 'set', path: [...at, 'slack_to_m'], value: second.from === id ? second.slack_to_m : second.slack_from_m },
    gone(second),
  ];
  if (path.length > 1) changes.push({ op: 'set', path: [...at, 'path'], value: path });
  if (first.length_m !== undefined || second.length_m !== undefined) {
    const total = (first.length_m ?? lengthOf(into)) + (second.length_m ?? lengthOf(onward));
    changes.push({ op: 'set', path: [...at, 'length_m'], value: total });
  }
  return changes;
}

function leadsFrom(job: JobDocument, joint: string): Operation[] {
  return (job.luminaires ?? [])
    .filter((lamp) => lamp.joint === joint)
    .map(({ id }) => ({ op: 'set', path: ['luminaires', { id }, 'joint'], value: undefined }));
}
