// SPDX-License-Identifier: Apache-2.0
// Heads of pictures built by hand after the formats' own descriptions, sizes as asked for.
import { describe, expect, it } from 'vitest';
import { imageSize } from '../../../src/storage/image-size';

const bytes = (...parts: (string | number[])[]): Uint8Array =>
  new Uint8Array(parts.flatMap((part) => (typeof part === 'string' ? [...part].map((letter) => letter.charCodeAt(0)) : part)));

const png = bytes([0x89], 'PNG', [13, 10, 26, 10, 0, 0, 0, 13], 'IHDR', [0, 0, 0x1f, 0x40, 0, 0, 0x13, 0x88]);
// APP0 of 16 bytes, a fill byte, then a progressive frame of 300 by 200.
const jpeg = bytes([0xff, 0xd8, 0xff, 0xe0, 0, 16], 'JFIF', Array<number>(10).fill(0), [0xff, 0xff, 0xc2, 0, 17, 8, 0, 200, 1, 44, 3]);
const lossy = bytes('RIFF', [0, 0, 0, 0], 'WEBPVP8 ', Array<number>(10).fill(0), [0x40, 1, 0xf0, 0]);
const lossless = bytes('RIFF', [0, 0, 0, 0], 'WEBPVP8L', [0, 0, 0, 0, 0x2f, 0x3f, 0xc1, 0x3b, 0]);
const extended = bytes('RIFF', [0, 0, 0, 0], 'WEBPVP8X', [0, 0, 0, 0, 0, 0, 0, 0, 0x3f, 1, 0, 0xef, 0, 0]);

describe('the size of a picture', () => {
  it.each([
    ['PNG', png, 'image/png', 8000, 5000],
    ['JPEG', jpeg, 'image/jpeg', 300, 200],
    ['lossy WebP', lossy, 'image/webp', 320, 240],
    ['lossless WebP', lossless, 'image/webp', 320, 240],
    ['extended WebP', extended, 'image/webp', 320, 240],
  ] as const)('%s', (_, head, type, widthPx, heightPx) => {
    expect(imageSize(head)).toEqual({ type, widthPx, heightPx });
  });

  it('is nothing for what is no picture, whatever it is called', () => {
    expect(imageSize(bytes('<svg xmlns="http://www.w3.org/2000/svg"><script/></svg>'))).toBeUndefined();
    expect(imageSize(bytes('GIF89a'))).toBeUndefined();
    expect(imageSize(new Uint8Array())).toBeUndefined();
  });

  it('is nothing for a head that is cut anywhere', () => {
    for (const head of [png, jpeg, lossy, lossless, extended]) {
      for (let length = 0; length < head.length - 4; length += 1) expect(imageSize(head.slice(0, length))).toBeUndefined();
    }
  });
});
