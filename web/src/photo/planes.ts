// SPDX-License-Identifier: Apache-2.0
// Planes to choose from for a surface of the photograph: those that the engine hangs on the known wall, and the walls
// of the plan.
import type { ProposedPlane } from '../engine/calibration';
import type { PictureSurface, Point3, SurfaceKind } from '../job/document';
import { wallWords, type PlanWall } from '../job/walls';
import type { UnitSystem } from '../units/quantity';
import type { Plane } from './camera';

export interface PlaneChoice {
  readonly id: string;
  readonly words: string;
  readonly plane: Plane;
  /** What is assumed. */
  readonly note?: string;
}

/** The plane of an upright wall between two places of the ground, facing outwards. */
export const uprightPlane = (left: readonly number[], right: readonly number[]): Plane => {
  const [dx, dy] = [right[0]! - left[0]!, right[1]! - left[1]!];
  const length = Math.hypot(dx, dy) || 1;
  return { onPlane: [left[0]!, left[1]!, left[2] ?? 0], normal: [dy / length, -dx / length, 0] };
};

export const levelPlane = (heightM: number): Plane => ({ onPlane: [0, 0, heightM], normal: [0, 0, 1] });
export const groundPlane = levelPlane(0);

const planeOf = ({ on_plane, normal }: ProposedPlane): Plane => ({ onPlane: on_plane, normal });

export function planeChoices(proposed: readonly ProposedPlane[], plan: readonly PlanWall[], northDeg: number | undefined, units: UnitSystem): PlaneChoice[] {
  const choices: PlaneChoice[] = proposed.map((one) => ({ id: one.id, words: one.name, plane: planeOf(one), ...(one.note !== '' && { note: one.note }) }));
  for (const one of plan) choices.push({ id: `plan ${one.id}`, words: wallWords(one, northDeg, units), plane: uprightPlane([...one.left, 0], [...one.right, 0]) });
  return choices;
}

const dot = (a: Point3, b: Point3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

/** Which of the choices a surface lies on; either side of it. */
export function choiceOf(choices: readonly PlaneChoice[], { on_plane, normal }: Pick<PictureSurface, 'on_plane' | 'normal'>): PlaneChoice | undefined {
  return choices.find(({ plane }) => {
    const off: Point3 = [on_plane[0] - plane.onPlane[0], on_plane[1] - plane.onPlane[1], on_plane[2] - plane.onPlane[2]];
    return Math.abs(dot(plane.normal, normal)) > 0.9999 && Math.abs(dot(off, plane.normal)) < 0.01;
  });
}

/** Turned to the side that the camera sees: light is calculated on that side. */
export function facing({ onPlane, normal }: Plane, camera: Point3): Plane {
  const towards = dot([camera[0] - onPlane[0], camera[1] - onPlane[1], camera[2] - onPlane[2]], normal);
  return towards >= 0 ? { onPlane, normal } : { onPlane, normal: [-normal[0] || 0, -normal[1] || 0, -normal[2] || 0] };
}

export const isLevel = (normal: Point3): boolean => Math.abs(normal[2]) > 0.9999;

/** What a new surface of that kind lies on before anybody has chosen: the engine's first of that kind, else the known wall. */
export function usualPlane(kind: SurfaceKind, proposed: readonly ProposedPlane[]): Plane | undefined {
  const found = proposed.find((plane) => plane.kind === kind) ?? proposed[0];
  return found && planeOf(found);
}

export const surfaceKindNames: Readonly<Record<SurfaceKind, string>> = { wall: 'Wall', ground: 'Ground', roof: 'Roof edge', steps: 'Steps', other: 'Other' };
export const maskKindNames = { sky: 'Sky', window: 'Window', other: 'Other' } as const;
