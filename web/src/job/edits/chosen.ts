// SPDX-License-Identifier: Apache-2.0
// Lamps that were chosen for a tree, a face or a path: all of them placed and aimed as one step.
import { withItem } from '../catalogue';
import type { JobDocument, Luminaire, LuminaireItem, Point3 } from '../document';
import { nextName, randomId } from '../ids';
import type { Command, Operation } from '../operations';
import type { ThingRef } from './move';

export interface LampToPlace {
  readonly item: string;
  readonly position: Point3;
  readonly azimuth_deg: number;
  readonly tilt_deg: number;
}

/** Undefined where an article is not known. */
export function placeChosen(job: JobDocument, lamps: readonly LampToPlace[], itemOf: (id: string) => LuminaireItem | undefined, label: string): { readonly command: Command; readonly made: readonly ThingRef[] } | undefined {
  const names = new Set((job.luminaires ?? []).map((lamp) => lamp.name));
  const changes: Operation[] = [];
  const items = [...new Set(lamps.map(({ item }) => item))].map(itemOf);
  for (const item of items) {
    if (!item) return undefined;
    changes.push(...withItem(job, 'luminaires', item));
  }
  const made = lamps.map(({ item, position, azimuth_deg, tilt_deg }): ThingRef => {
    const name = nextName('Light', names);
    names.add(name);
    const value: Luminaire = { id: randomId('light'), name, item, position, azimuth_deg, tilt_deg };
    changes.push({ op: 'insert', path: ['luminaires'], value });
    return { kind: 'luminaire', id: value.id };
  });
  return { command: { label, changes }, made };
}
