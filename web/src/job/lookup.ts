// SPDX-License-Identifier: Apache-2.0
// Finding things in a document by id: luminaires, outputs and joints share one space of ids (a cable ends at any).
import type {
  Area, Cable, CableItem, ConnectorItem, FixedPoint, JobDocument, Joint, Luminaire, LuminaireItem, Output, Point2,
  Receptacle, Sleeve, Transformer, TransformerItem, Tree, ViewPoint,
} from './document';
import type { Path } from './operations';

export type Thing =
  | { readonly kind: 'luminaire'; readonly path: Path; readonly value: Luminaire }
  | { readonly kind: 'transformer'; readonly path: Path; readonly value: Transformer }
  | { readonly kind: 'output'; readonly path: Path; readonly value: Output; readonly transformer: Transformer }
  | { readonly kind: 'joint'; readonly path: Path; readonly value: Joint }
  | { readonly kind: 'cable'; readonly path: Path; readonly value: Cable }
  | { readonly kind: 'area'; readonly path: Path; readonly value: Area }
  | { readonly kind: 'tree'; readonly path: Path; readonly value: Tree }
  | { readonly kind: 'view_point'; readonly path: Path; readonly value: ViewPoint }
  | { readonly kind: 'receptacle'; readonly path: Path; readonly value: Receptacle }
  | { readonly kind: 'sleeve'; readonly path: Path; readonly value: Sleeve }
  | { readonly kind: 'fixed_point'; readonly path: Path; readonly value: FixedPoint };

export type ThingKind = Thing['kind'];

/** Every thing of the document, by kind in drawing order. Ids are unique within a kind, see idsOf. */
export function* thingsOf(job: JobDocument): Generator<Thing> {
  for (const value of job.plan?.areas ?? []) yield { kind: 'area', value, path: ['plan', 'areas', { id: value.id }] };
  for (const value of job.plan?.sleeves ?? []) yield { kind: 'sleeve', value, path: ['plan', 'sleeves', { id: value.id }] };
  for (const value of job.plan?.trees ?? []) yield { kind: 'tree', value, path: ['plan', 'trees', { id: value.id }] };
  for (const value of job.plan?.view_points ?? []) {
    yield { kind: 'view_point', value, path: ['plan', 'view_points', { id: value.id }] };
  }
  for (const value of job.plan?.receptacles ?? []) {
    yield { kind: 'receptacle', value, path: ['plan', 'receptacles', { id: value.id }] };
  }
  for (const value of job.plan?.fixed_points ?? []) {
    yield { kind: 'fixed_point', value, path: ['plan', 'fixed_points', { id: value.id }] };
  }
  yield* wiredThingsOf(job);
}

function* wiredThingsOf(job: JobDocument): Generator<Thing> {
  for (const value of job.cables ?? []) yield { kind: 'cable', value, path: ['cables', { id: value.id }] };
  for (const value of job.joints ?? []) yield { kind: 'joint', value, path: ['joints', { id: value.id }] };
  for (const transformer of job.transformers ?? []) {
    const path: Path = ['transformers', { id: transformer.id }];
    yield { kind: 'transformer', value: transformer, path };
    for (const value of transformer.outputs) {
      yield { kind: 'output', value, transformer, path: [...path, 'outputs', { id: value.id }] };
    }
  }
  for (const value of job.luminaires ?? []) yield { kind: 'luminaire', value, path: ['luminaires', { id: value.id }] };
}

/** The first thing of that id; `kind` where an id may stand for things of several kinds. */
export function findThing(job: JobDocument, id: string, kind?: ThingKind): Thing | undefined {
  for (const thing of thingsOf(job)) {
    if (thing.value.id === id && (kind === undefined || thing.kind === kind)) return thing;
  }
  return undefined;
}

export function nameOf(thing: Thing): string {
  const name = (thing.value as { name?: string }).name;
  return name !== undefined && name !== '' ? name : thing.value.id;
}

/** Where a thing is drawn; undefined where the document does not say. */
export function placeOf(thing: Thing): Point2 | undefined {
  if (thing.kind === 'output') return thing.transformer.position;
  const position = (thing.value as { position?: Point2 }).position;
  return position === undefined ? undefined : [position[0], position[1]];
}

/** Where a cable may end, by id: luminaires, joints, outputs (at their transformer). */
export function endsOf(job: JobDocument): Map<string, Point2 | undefined> {
  const ends = new Map<string, Point2 | undefined>();
  for (const thing of wiredThingsOf(job)) {
    if (thing.kind === 'luminaire' || thing.kind === 'joint' || thing.kind === 'output') {
      ends.set(thing.value.id, placeOf(thing));
    }
  }
  return ends;
}

const byId = <T extends { readonly id: string }>(list: readonly T[] | undefined, id: string | undefined): T | undefined =>
  list?.find((item) => item.id === id);

export const luminaireItem = (job: JobDocument, id: string | undefined): LuminaireItem | undefined =>
  byId(job.catalogue?.luminaires, id);
export const transformerItem = (job: JobDocument, id: string | undefined): TransformerItem | undefined =>
  byId(job.catalogue?.transformers, id);
export const cableItem = (job: JobDocument, id: string | undefined): CableItem | undefined =>
  byId(job.catalogue?.cables, id);
export const connectorItem = (job: JobDocument, id: string | undefined): ConnectorItem | undefined =>
  byId(job.catalogue?.connectors, id);

/** Luminaires by zone, in the job's order; '' those without one. */
export function lampsByZone(job: JobDocument): ReadonlyMap<string, readonly Luminaire[]> {
  const zones = new Map<string, Luminaire[]>();
  for (const lamp of job.luminaires ?? []) {
    const zone = lamp.zone ?? '';
    zones.set(zone, [...(zones.get(zone) ?? []), lamp]);
  }
  return zones;
}
