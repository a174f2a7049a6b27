// SPDX-License-Identifier: Apache-2.0
// Focal lengths from notes written here by hand, byte by byte, in both byte orders.
import { describe, expect, it } from 'vitest';
import { exifFocalPx } from '../../../src/storage/exif-focal';

type Entry = readonly [tag: number, type: 3 | 4 | 5, value: number | readonly [number, number]];

/** A JPEG that ends after its Exif segment. */
function jpeg(entries: readonly Entry[], little: boolean): Uint8Array {
  const tiff = new DataView(new ArrayBuffer(400));
  const u16 = (at: number, value: number): void => tiff.setUint16(at, value, little);
  const u32 = (at: number, value: number): void => tiff.setUint32(at, value, little);
  tiff.setUint16(0, little ? 0x4949 : 0x4d4d);
  u16(2, 42);
  u32(4, 8);
  u16(8, 1); // IFD0: where the Exif directory is
  u16(10, 0x8769);
  u16(12, 4);
  u32(14, 1);
  u32(18, 40);
  u16(40, entries.length);
  entries.forEach(([tag, type, value], index) => {
    const at = 42 + 12 * index;
    u16(at, tag);
    u16(at + 2, type);
    u32(at + 4, 1);
    if (type === 3) u16(at + 8, value as number);
    else if (type === 4) u32(at + 8, value as number);
    else {
      const place = 200 + 8 * index;
      u32(at + 8, place);
      u32(place, (value as readonly [number, number])[0]);
      u32(place + 4, (value as readonly [number, number])[1]);
    }
  });
  const head = [0xff, 0xd8, 0xff, 0xe1, (408 >> 8) & 255, 408 & 255, 0x45, 0x78, 0x69, 0x66, 0, 0];
  return new Uint8Array([...head, ...new Uint8Array(tiff.buffer), 0xff, 0xda]);
}

describe('the focal length of a photograph', () => {
  it.each([true, false])('comes from its 35 mm equivalent (little end first: %s)', (little) => {
    // 26 mm on 43.27 mm of diagonal, 4000 x 3000 elements with 5000 of diagonal.
    expect(exifFocalPx(jpeg([[0xa405, 3, 26]], little), 4000, 3000)).toBeCloseTo(3004.6, 1);
  });

  it('comes from the sensor’s own resolution', () => {
    // 18 mm at 4000 elements on 23.6 mm: 18 / 23.6 * 4000; noted per inch.
    const perInch: readonly [number, number] = [Math.round((4000 / 23.6) * 25.4 * 1000), 1000];
    expect(exifFocalPx(jpeg([[0x920a, 5, [180, 10]], [0xa20e, 5, perInch], [0xa210, 3, 2]], true), 4000, 3000)).toBeCloseTo(3050.8, 0);
  });

  it('is not taken where it cannot be', () => {
    expect(exifFocalPx(jpeg([[0xa405, 3, 0]], true), 4000, 3000)).toBeUndefined();
    expect(exifFocalPx(jpeg([], false), 4000, 3000)).toBeUndefined();
    expect(exifFocalPx(jpeg([[0xa405, 3, 26]], true).slice(0, 60), 4000, 3000)).toBeUndefined();
    expect(exifFocalPx(new Uint8Array([0x89, 0x50, 0x4e, 0x47]), 10, 10)).toBeUndefined();
  });
});
