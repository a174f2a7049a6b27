// SPDX-License-Identifier: Apache-2.0
// A light in space: where it looks, aiming it at a place, moving it with its height, its dimming and its colour.
// Azimuth counts clockwise from north, tilt up from level; north_deg says where north is, counter-clockwise from x.
import { withItem } from '../catalogue';
import type { JobDocument, Luminaire, LuminaireItem, LuminaireKind, Point3 } from '../document';
import { luminaireItem } from '../lookup';
import type { Command, Operation } from '../operations';
import { moveChanges } from './move';

// Kinds whose light follows their aim; the others stand upright and are only turned.
const aimed: ReadonlySet<LuminaireKind> = new Set(['bullet', 'wall_wash', 'well', 'tree_downlight', 'underwater', 'retrofit_lamp', 'halogen_lamp']);

export const isAimed = (item: LuminaireItem | undefined): boolean => item !== undefined && aimed.has(item.kind) && (item.beam_deg ?? 0) < 360;

export const lampName = (lamp: Luminaire): string => lamp.name || lamp.id;

const degrees = 180 / Math.PI;

/** The way in which an aim looks, of length 1. */
export function wayOfAim(azimuthDeg: number, tiltDeg: number, northDeg = 90): Point3 {
  const turn = (northDeg - azimuthDeg) / degrees;
  const tilt = tiltDeg / degrees;
  return [Math.cos(tilt) * Math.cos(turn), Math.cos(tilt) * Math.sin(turn), Math.sin(tilt)];
}

/** The aim from one place at another; straight up or down it keeps the azimuth that it had. */
export function aimAt(from: Point3, at: Point3, northDeg = 90, azimuthDeg = 0): { readonly azimuth_deg: number; readonly tilt_deg: number } {
  const [dx, dy, dz] = [at[0] - from[0], at[1] - from[1], at[2] - from[2]];
  const levelM = Math.hypot(dx, dy);
  const round = (deg: number): number => Math.round(deg * 10) / 10;
  const turn = levelM < 1e-6 ? azimuthDeg : northDeg - Math.atan2(dy, dx) * degrees;
  return { azimuth_deg: round(((turn % 360) + 360) % 360) % 360, tilt_deg: round(Math.atan2(dz, levelM) * degrees) };
}

const set = (lamp: Luminaire, key: string, value: unknown): Operation => ({ op: 'set', path: ['luminaires', { id: lamp.id }, key], value });

export const aimChanges = (lamp: Luminaire, aim: { readonly azimuth_deg: number; readonly tilt_deg?: number }): Operation[] =>
  Object.entries(aim).map(([key, value]) => set(lamp, key, value));

/** To a place in space, its cables along. */
export function moveLampChanges(job: JobDocument, lamp: Luminaire, to: Point3): Operation[] {
  const from = lamp.position;
  if (!from) return [set(lamp, 'position', to)];
  const moved = moveChanges(job, [{ kind: 'luminaire', id: lamp.id }], [to[0] - from[0], to[1] - from[1]]);
  return [...moved, { op: 'set', path: ['luminaires', { id: lamp.id }, 'position', 2], value: to[2] }];
}

export const dimChanges = (lamps: readonly Luminaire[], pct: number): Operation[] => lamps.map((lamp) => set(lamp, 'dim_pct', pct));

/** The same article in another light colour, as an article of the job's own. */
export function colourLamp(job: JobDocument, lamp: Luminaire, kelvin: number): Command | undefined {
  const item = luminaireItem(job, lamp.item);
  if (!item || item.colour_temperature_k === kelvin) return undefined;
  const stem = item.id.replace(/-\d{4}k$/, '');
  const title = (item.title ?? item.id).replace(/, \d{4} K$/, '');
  const known = (job.catalogue?.luminaires ?? []).find(({ id, colour_temperature_k }) => (id === stem || id === `${stem}-${kelvin}k`) && colour_temperature_k === kelvin);
  const other = known ?? { ...item, id: `${stem}-${kelvin}k`, title: `${title}, ${kelvin} K`, colour_temperature_k: kelvin };
  return { label: `${lampName(lamp)}: ${kelvin} K`, changes: [...withItem(job, 'luminaires', other), set(lamp, 'item', other.id)] };
}
