// SPDX-License-Identifier: Apache-2.0
// Polar curves as paths of an SVG: gamma 0 points down, the peak reaches the radius 1.
import type { PolarCurve } from '../engine/photometry';

export interface PolarPaths {
  /** C 0 to the right, C 180 to the left. */
  readonly along: string;
  /** C 90 to the right, C 270 to the left; empty where it looks like `along`. */
  readonly across: string;
}

const rounded = (value: number): number => Math.round(value * 1e4) / 1e4 || 0;

function closedPath(right: PolarCurve, left: PolarCurve, peakCd: number): string {
  const at = ({ gamma_deg, intensity_cd }: PolarCurve['points'][number], side: 1 | -1): string => {
    const gamma = (gamma_deg * Math.PI) / 180;
    const reach = intensity_cd / peakCd;
    return `${rounded(side * reach * Math.sin(gamma))} ${rounded(reach * Math.cos(gamma))}`;
  };
  const round = [...right.points.map((point) => at(point, 1)), ...[...left.points].reverse().map((point) => at(point, -1))];
  return `M${round.join('L')}Z`;
}

const alike = (a: PolarCurve, b: PolarCurve, peakCd: number): boolean =>
  a.points.every(({ intensity_cd }, i) => Math.abs(intensity_cd - (b.points[i]?.intensity_cd ?? 0)) <= 0.01 * peakCd);

/** `curves`: those of C 0, 90, 180 and 270. */
export function polarPaths(curves: readonly PolarCurve[], peakCd: number): PolarPaths {
  const [c0, c90, c180, c270] = curves;
  if (!c0 || !c90 || !c180 || !c270 || !(peakCd > 0)) return { along: '', across: '' };
  const same = alike(c0, c90, peakCd) && alike(c180, c270, peakCd);
  return { along: closedPath(c0, c180, peakCd), across: same ? '' : closedPath(c90, c270, peakCd) };
}
