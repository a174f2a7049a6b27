// SPDX-License-Identifier: Apache-2.0
// The focal length that a camera noted in a JPEG, in picture elements (Exif 2.3 = CIPA DC-008: tags FocalLength 0x920a,
// FocalLengthIn35mmFilm 0xa405, FocalPlaneXResolution 0xa20e with its unit 0xa210). Undefined where nothing is noted
// that can be believed: the four corners of a wall find it as well.

const tag = { exif: 0x8769, focal: 0x920a, planeX: 0xa20e, planeUnit: 0xa210, focal35: 0xa405, widthPx: 0xa002 };
const millimetresPerUnit: Readonly<Record<number, number>> = { 2: 25.4, 3: 10, 4: 1 };
// A 35 mm frame is 36 by 24 mm; the equivalent length goes by the diagonal (CIPA DCG-001).
const diagonal35Mm = Math.hypot(36, 24);

interface Entry {
  readonly type: number;
  readonly at: number;
}

/** `bytes`: the beginning of the file. `widthPx`, `heightPx`: the photograph as the camera stored it. */
export function exifFocalPx(bytes: Uint8Array, widthPx: number, heightPx: number): number | undefined {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  try {
    const start = tiffStart(view);
    return start === undefined ? undefined : focalOf(view, start, widthPx, heightPx);
  } catch (error) {
    if (error instanceof RangeError) return undefined; // cut short, or an offset that leads out of it
    throw error;
  }
}

function tiffStart(view: DataView): number | undefined {
  if (view.getUint16(0) !== 0xffd8) return undefined;
  let offset = 2;
  while (view.getUint8(offset) === 0xff) {
    const marker = view.getUint8(offset + 1);
    const isExif = marker === 0xe1 && view.getUint32(offset + 4) === 0x45786966 && view.getUint16(offset + 8) === 0;
    if (isExif) return offset + 10;
    if (marker === 0xda) return undefined; // the picture itself begins
    offset += 2 + view.getUint16(offset + 2);
  }
  return undefined;
}

function focalOf(view: DataView, start: number, widthPx: number, heightPx: number): number | undefined {
  const little = view.getUint16(start) === 0x4949;
  const u16 = (at: number): number => view.getUint16(at, little);
  const u32 = (at: number): number => view.getUint32(at, little);
  const directory = (at: number): Map<number, Entry> => {
    const entries = new Map<number, Entry>();
    for (let index = 0; index < u16(at); ++index) {
      const entry = at + 2 + 12 * index;
      entries.set(u16(entry), { type: u16(entry + 2), at: entry + 8 });
    }
    return entries;
  };
  const value = (entry: Entry | undefined): number => {
    if (entry?.type === 3) return u16(entry.at);
    if (entry?.type === 4) return u32(entry.at);
    if (entry?.type !== 5) return NaN;
    const place = start + u32(entry.at);
    return u32(place) / u32(place + 4);
  };
  const exif = directory(start + u32(start + 4)).get(tag.exif);
  if (!exif) return undefined;
  const noted = directory(start + u32(exif.at));
  const believable = (focalPx: number): number | undefined => (focalPx > 0.2 * widthPx && focalPx < 40 * widthPx ? focalPx : undefined);
  const from35 = (value(noted.get(tag.focal35)) / diagonal35Mm) * Math.hypot(widthPx, heightPx);
  const unitMm = millimetresPerUnit[value(noted.get(tag.planeUnit))] ?? NaN;
  const scale = widthPx / (value(noted.get(tag.widthPx)) || widthPx);
  return believable(from35) ?? believable(((value(noted.get(tag.focal)) * value(noted.get(tag.planeX))) / unitMm) * scale);
}
