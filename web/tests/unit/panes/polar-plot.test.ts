// SPDX-License-Identifier: Apache-2.0
import { describe, expect, it } from 'vitest';
import type { PolarCurve } from '../../../src/engine/photometry';
import { polarPaths } from '../../../src/panes/polar-plot';

const curve = (c_deg: number, ...cds: number[]): PolarCurve => ({ c_deg, points: cds.map((intensity_cd, i) => ({ gamma_deg: i * 90, intensity_cd })) });

describe('polar plot', () => {
  it('points straight down at gamma 0 and right at C 0', () => {
    const { along } = polarPaths([curve(0, 100, 50, 0), curve(90, 100, 50, 0), curve(180, 100, 25, 0), curve(270, 100, 25, 0)], 100);
    expect(along).toBe('M0 1L0.5 0L0 0L0 0L-0.25 0L0 1Z');
  });

  it('draws the plane of C 90 only where it differs', () => {
    const same = [0, 90, 180, 270].map((c) => curve(c, 100, 50, 0));
    expect(polarPaths(same, 100).across).toBe('');
    expect(polarPaths([same[0]!, curve(90, 100, 80, 0), same[2]!, same[3]!], 100).across).toContain('0.8 0');
  });

  it('is empty for a lamp without light', () => {
    expect(polarPaths([0, 90, 180, 270].map((c) => curve(c, 0, 0, 0)), 0)).toEqual({ along: '', across: '' });
  });
});
