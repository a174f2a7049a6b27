// SPDX-License-Identifier: Apache-2.0
// Planes to choose from for a surface of the photograph: the ground, a level over it, the known wall, the walls that
// adjoin it at right angles, walls of the plan, and a roof that rises from the known wall's top.
import type { KnownWall, PictureSurface, Point3, SurfaceKind } from '../job/document';
import { wallWords, type PlanWall } from '../job/walls';
import { quantityText, type UnitSystem } from '../units/quantity';
import type { Plane } from './camera';

export interface PlaneChoice {
  readonly id: string;
  readonly words: string;
  readonly plane: Plane;
}

/** The plane of an upright wall between two places of the ground, facing outwards. */
export const uprightPlane = (left: readonly number[], right: readonly number[]): Plane => {
  const [dx, dy] = [right[0]! - left[0]!, right[1]! - left[1]!];
  const length = Math.hypot(dx, dy) || 1;
  return { onPlane: [left[0]!, left[1]!, left[2] ?? 0], normal: [dy / length, -dx / length, 0] };
};

export const levelPlane = (heightM: number): Plane => ({ onPlane: [0, 0, heightM], normal: [0, 0, 1] });
export const groundPlane = levelPlane(0);

/** A roof from the wall's top, rising inwards. */
export function roofPlane(wall: KnownWall, pitchDeg: number): Plane {
  const { normal } = uprightPlane(wall.left, wall.right);
  const pitch = (pitchDeg * Math.PI) / 180;
  const [out, up] = [Math.sin(pitch), Math.cos(pitch)];
  return { onPlane: [wall.left[0], wall.left[1], wall.left[2] + wall.height_m], normal: [normal[0] * out, normal[1] * out, up] };
}

const usualPitchDeg = 30;

export function planeChoices(wall: KnownWall, plan: readonly PlanWall[], northDeg: number | undefined, units: UnitSystem): PlaneChoice[] {
  const known = uprightPlane(wall.left, wall.right);
  const along: Point3 = [-known.normal[1], known.normal[0], 0];
  const choices: PlaneChoice[] = [
    { id: 'ground', words: 'The ground', plane: groundPlane },
    { id: 'wall', words: 'The known wall', plane: known },
    { id: 'left', words: 'Square to it, at its left end', plane: { onPlane: wall.left, normal: [-along[0], -along[1], 0] } },
    { id: 'right', words: 'Square to it, at its right end', plane: { onPlane: wall.right, normal: along } },
    { id: 'roof', words: `A roof over it, ${quantityText(usualPitchDeg, 'angle', units, 0)}`, plane: roofPlane(wall, usualPitchDeg) },
  ];
  for (const one of plan) choices.push({ id: one.id, words: wallWords(one, northDeg, units), plane: uprightPlane([...one.left, 0], [...one.right, 0]) });
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

/** What a new surface of that kind lies on before anybody has chosen. */
export function usualPlane(kind: SurfaceKind, wall: KnownWall): Plane {
  if (kind === 'ground') return groundPlane;
  if (kind === 'roof') return roofPlane(wall, usualPitchDeg);
  return kind === 'steps' ? levelPlane(0.15) : uprightPlane(wall.left, wall.right);
}

export const surfaceKindNames: Readonly<Record<SurfaceKind, string>> = { wall: 'Wall', ground: 'Ground', roof: 'Roof edge', steps: 'Steps', other: 'Other' };
export const maskKindNames = { sky: 'Sky', window: 'Window', other: 'Other' } as const;
