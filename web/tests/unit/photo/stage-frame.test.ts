// SPDX-License-Identifier: Apache-2.0
import { describe, expect, it } from 'vitest';
import { fitted, pannedBy, pixelFromScreen, screenFromPixel, showing, zoomedAt, type StageFrame } from '../../../src/photo/stage-frame';

const picture = { widthPx: 4000, heightPx: 3000 };
const frame: StageFrame = fitted({ centre: [0, 0], scale: 1, widthPx: 800, heightPx: 600 }, picture);

describe('the stage', () => {
  it('shows all of the picture at first', () => {
    expect(frame.scale).toBe(0.2);
    expect(screenFromPixel(frame, [0, 0])).toEqual([0, 0]);
    expect(screenFromPixel(frame, [4000, 3000])).toEqual([800, 600]);
  });

  it('keeps the place under the pointer when it enlarges', () => {
    const at = [123, 456] as const;
    const before = pixelFromScreen(frame, at);
    const after = pixelFromScreen(zoomedAt(frame, picture, at, 3), at);
    after.forEach((value, index) => expect(value).toBeCloseTo(before[index]!, 9));
  });

  it('never loses the picture', () => {
    expect(pannedBy(frame, picture, 1e6, -1e6).centre).toEqual([0, 3000]);
    expect(zoomedAt(frame, picture, [0, 0], 1e-6).scale).toBe(0.1);
    expect(zoomedAt(frame, picture, [0, 0], 1e6).scale).toBe(16);
  });

  it('moves no farther than is needed to show a place', () => {
    const close = { ...frame, scale: 1, centre: [2000, 1500] as const };
    expect(showing(close, picture, [2000, 1500])).toEqual(close);
    expect(screenFromPixel(showing(close, picture, [2900, 1500]), [2900, 1500])).toEqual([760, 300]);
  });
});
