// SPDX-License-Identifier: Apache-2.0
// Takes a picture in: its size is read before it is decoded, it is scaled to what the page needs and encoded anew, so
// that neither its metadata nor anything hidden in it gets into a job.
import { imageSize } from './image-size';

export interface TakenPicture {
  readonly blob: Blob;
  readonly widthPx: number;
  readonly heightPx: number;
  /** Smaller than what was given. */
  readonly scaled: boolean;
}

/** Above, the browser itself may fail to decode. */
export const mostPixels = 100_000_000;
export const mostBytes = 64 * 2 ** 20;
/** Of the longer side as kept. */
const longestKeptPx = 4096;

export class PictureRefusal extends Error {}

export async function takePicture(file: Blob): Promise<TakenPicture> {
  if (file.size > mostBytes) throw new PictureRefusal(`The picture has ${Math.round(file.size / 2 ** 20)} MB; at most ${mostBytes / 2 ** 20} MB can be taken in.`);
  const size = imageSize(new Uint8Array(await file.slice(0, 2 ** 20).arrayBuffer()));
  if (!size) throw new PictureRefusal('This is no picture that can be read: JPEG, PNG and WebP can. Photographs of other kinds: save them as JPEG first.');
  const pixels = size.widthPx * size.heightPx;
  if (pixels === 0 || pixels > mostPixels) {
    throw new PictureRefusal(`The picture has ${size.widthPx} × ${size.heightPx} elements; at most ${mostPixels / 1e6} million can be taken in. Scale it down first.`);
  }
  return encode(await decode(file, size.widthPx, size.heightPx), size.type, pixels);
}

async function decode(file: Blob, widthPx: number, heightPx: number): Promise<ImageBitmap> {
  const shrink = Math.min(1, longestKeptPx / Math.max(widthPx, heightPx));
  const options: ImageBitmapOptions = { imageOrientation: 'from-image' };
  // Given one side the other follows, whichever way the picture is turned.
  if (shrink < 1) Object.assign(options, { resizeQuality: 'high', ...sideOf(widthPx, heightPx) });
  try {
    return await createImageBitmap(file, options);
  } catch {
    throw new PictureRefusal('The picture is damaged or too large for this browser.');
  }
}

const sideOf = (widthPx: number, heightPx: number): ImageBitmapOptions =>
  widthPx >= heightPx ? { resizeWidth: longestKeptPx } : { resizeHeight: longestKeptPx };

async function encode(bitmap: ImageBitmap, type: string, pixelsBefore: number): Promise<TakenPicture> {
  const { width, height } = bitmap;
  const canvas = new OffscreenCanvas(width, height);
  const context = canvas.getContext('2d');
  if (!context) throw new PictureRefusal('This browser has no room to draw the picture.');
  context.drawImage(bitmap, 0, 0);
  bitmap.close();
  // Plans come as PNG and keep their sharp lines; photographs stay photographs.
  const blob = await canvas.convertToBlob(type === 'image/png' ? { type } : { type: 'image/jpeg', quality: 0.9 });
  return { blob, widthPx: width, heightPx: height, scaled: width * height < pixelsBefore };
}
