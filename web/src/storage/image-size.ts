// SPDX-License-Identifier: Apache-2.0
// Kind and size of a picture from its first bytes, before anything is decoded: what its name or type says is not
// believed. JPEG (ITU-T T.81 annex B), PNG (ISO/IEC 15948), WebP (RFC 9649).

export interface ImageSize {
  readonly type: 'image/jpeg' | 'image/png' | 'image/webp';
  readonly widthPx: number;
  readonly heightPx: number;
}

export function imageSize(bytes: Uint8Array): ImageSize | undefined {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  try {
    return pngSize(view) ?? jpegSize(view) ?? webpSize(view);
  } catch (error) {
    if (error instanceof RangeError) return undefined; // cut short
    throw error;
  }
}

const ascii = (view: DataView, offset: number, length: number): string =>
  String.fromCharCode(...new Uint8Array(view.buffer, view.byteOffset + offset, length));

function pngSize(view: DataView): ImageSize | undefined {
  if (view.getUint32(0) !== 0x89504e47 || view.getUint32(4) !== 0x0d0a1a0a || ascii(view, 12, 4) !== 'IHDR') return undefined;
  return { type: 'image/png', widthPx: view.getUint32(16), heightPx: view.getUint32(20) };
}

function jpegSize(view: DataView): ImageSize | undefined {
  if (view.getUint16(0) !== 0xffd8) return undefined;
  let offset = 2;
  while (offset < view.byteLength) {
    if (view.getUint8(offset) !== 0xff) return undefined;
    const marker = view.getUint8(offset + 1);
    if (marker === 0xff) offset += 1; // fill byte
    else if (marker >= 0xd0 && marker <= 0xd9) offset += 2; // without a length
    else if (isFrameHeader(marker)) {
      return { type: 'image/jpeg', widthPx: view.getUint16(offset + 7), heightPx: view.getUint16(offset + 5) };
    } else offset += 2 + view.getUint16(offset + 2);
  }
  return undefined;
}

// SOF0 to SOF15 without DHT, JPG and DAC (table B.1).
const isFrameHeader = (marker: number): boolean =>
  marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc;

function webpSize(view: DataView): ImageSize | undefined {
  if (ascii(view, 0, 4) !== 'RIFF' || ascii(view, 8, 4) !== 'WEBP') return undefined;
  const chunk = ascii(view, 12, 4);
  const size = (widthPx: number, heightPx: number): ImageSize => ({ type: 'image/webp', widthPx, heightPx });
  const uint24 = (offset: number): number => view.getUint16(offset, true) + (view.getUint8(offset + 2) << 16);
  if (chunk === 'VP8X') return size(uint24(24) + 1, uint24(27) + 1);
  if (chunk === 'VP8L') {
    const bits = view.getUint32(21, true);
    return size((bits & 0x3fff) + 1, ((bits >>> 14) & 0x3fff) + 1);
  }
  if (chunk === 'VP8 ') return size(view.getUint16(26, true) & 0x3fff, view.getUint16(28, true) & 0x3fff);
  return undefined;
}
