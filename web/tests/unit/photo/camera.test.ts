// SPDX-License-Identifier: Apache-2.0
// The pinhole both ways, against places whose picture is known by hand.
import { describe, expect, it } from 'vitest';
import type { Camera } from '../../../src/engine/calibration';
import { metresPerPixel, pixelFromSite, siteFromPixel, wayFromPixel } from '../../../src/photo/camera';

// At 2 m over grade, looking north along the level.
const camera: Camera = {
  width_px: 1000, height_px: 600, focal_px: 800, principal_point_px: [500, 300], position: [0, -10, 2],
  axes: [[1, 0, 0], [0, 0, -1], [0, 1, 0]],
};

describe('the camera', () => {
  it('sees what lies straight ahead in the middle of the picture', () => {
    expect(pixelFromSite(camera, [0, 0, 2])).toEqual([500, 300]);
    expect(wayFromPixel(camera, [500, 300])).toEqual([0, 1, 0]);
  });

  it('moves a place by focal length over distance for each metre', () => {
    // 10 m away: 80 elements a metre, to the right and down.
    expect(pixelFromSite(camera, [1, 0, 1])).toEqual([580, 380]);
    expect(metresPerPixel(camera, [3, 0, 0])).toBeCloseTo(1 / 80, 12);
  });

  it('does not see behind itself', () => {
    expect(pixelFromSite(camera, [0, -11, 2])).toBeUndefined();
  });

  it('meets the ground where the place was', () => {
    const place = [2.5, 4, 0] as const;
    const met = siteFromPixel(camera, pixelFromSite(camera, place)!, { onPlane: [0, 0, 0], normal: [0, 0, 1] })!;
    met.forEach((value, index) => expect(value).toBeCloseTo(place[index]!, 9));
  });

  it('meets no ground over the horizon, and no plane along which it looks', () => {
    expect(siteFromPixel(camera, [500, 200], { onPlane: [0, 0, 0], normal: [0, 0, 1] })).toBeUndefined();
    expect(siteFromPixel(camera, [500, 300], { onPlane: [1, 0, 0], normal: [1, 0, 0] })).toBeUndefined();
  });
});
