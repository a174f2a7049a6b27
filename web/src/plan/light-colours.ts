// SPDX-License-Identifier: Apache-2.0
// Colours for light on the ground. False colours: bands of the viridis scale (public domain, CC0), which stays in order
// for colour-blind eyes and in grey. Pools: a dark garden with warm light in it, for the eye and without numbers.

/** Lower edges of the bands in lx; below the first lies a band of its own. */
export const bandsLx = [0.5, 1, 2, 5, 10, 20, 50, 100] as const;

export const bandColours = ['#440154', '#472d7b', '#3b528b', '#2c728e', '#21918c', '#28ae80', '#5ec962', '#addc30', '#fde725'] as const;

export const bandOf = (lx: number): number => {
  const above = bandsLx.findIndex((edge) => lx < edge);
  return above < 0 ? bandsLx.length : above;
};

const rgbOf = (hex: string): readonly [number, number, number] => [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16)) as [number, number, number];
const bandRgb = bandColours.map(rgbOf);

const dark = [8, 12, 20] as const;
const warm = [255, 214, 150] as const;
/** Light that looks half as bright as it gets in a pool. */
const halfLx = 4;

export type Rgba = readonly [number, number, number, number];
const nothing: Rgba = [0, 0, 0, 0];

export function falseColour(lx: number): Rgba {
  if (lx < 0) return nothing;
  const [r, g, b] = bandRgb[bandOf(lx)]!;
  return [r, g, b, 215];
}

export function poolColour(lx: number): Rgba {
  if (lx < 0) return [...dark, 150];
  // The eye's answer to light is far from even: a ratio, not a difference.
  const share = lx / (lx + halfLx);
  const mix = (index: 0 | 1 | 2): number => Math.round(dark[index] + (warm[index] - dark[index]) * share);
  return [mix(0), mix(1), mix(2), Math.round(225 - 70 * share)];
}
