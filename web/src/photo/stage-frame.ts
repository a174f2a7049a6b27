// SPDX-License-Identifier: Apache-2.0
// Which part of a photograph is on the screen. Picture elements count from the top left corner, y down, as on the
// screen. Transforms are named target-from-source.

/** [x, y] in elements of the photograph. */
export type Pixel = readonly [number, number];
export type ScreenPoint = readonly [number, number];

export interface StageFrame {
  /** The element in the middle of the stage. */
  readonly centre: Pixel;
  /** Screen pixels for one picture element. */
  readonly scale: number;
  readonly widthPx: number;
  readonly heightPx: number;
}

export interface PictureSize {
  readonly widthPx: number;
  readonly heightPx: number;
}

const mostScale = 16;

export const screenFromPixel = (frame: StageFrame, [x, y]: Pixel): ScreenPoint => [
  frame.widthPx / 2 + (x - frame.centre[0]) * frame.scale,
  frame.heightPx / 2 + (y - frame.centre[1]) * frame.scale,
];

export const pixelFromScreen = (frame: StageFrame, [x, y]: ScreenPoint): Pixel => [
  frame.centre[0] + (x - frame.widthPx / 2) / frame.scale,
  frame.centre[1] + (y - frame.heightPx / 2) / frame.scale,
];

/** All of the picture, as large as it goes. */
export function fitted(frame: StageFrame, picture: PictureSize): StageFrame {
  const scale = Math.min(frame.widthPx / Math.max(1, picture.widthPx), frame.heightPx / Math.max(1, picture.heightPx));
  return { ...frame, scale: scale > 0 ? scale : 1, centre: [picture.widthPx / 2, picture.heightPx / 2] };
}

/** The picture never leaves the stage: its middle stays inside, and it is never smaller than half of what fits. */
function kept(frame: StageFrame, picture: PictureSize): StageFrame {
  const inside = (value: number, most: number): number => Math.min(most, Math.max(0, value));
  return { ...frame, centre: [inside(frame.centre[0], picture.widthPx), inside(frame.centre[1], picture.heightPx)] };
}

export const pannedBy = (frame: StageFrame, picture: PictureSize, dxPx: number, dyPx: number): StageFrame =>
  kept({ ...frame, centre: [frame.centre[0] - dxPx / frame.scale, frame.centre[1] - dyPx / frame.scale] }, picture);

/** Enlarges about a place of the screen, which stays where it is. */
export function zoomedAt(frame: StageFrame, picture: PictureSize, at: ScreenPoint, factor: number): StageFrame {
  const least = fitted(frame, picture).scale / 2;
  const scale = Math.min(mostScale, Math.max(least, frame.scale * factor));
  const still = pixelFromScreen(frame, at);
  const moved = pixelFromScreen({ ...frame, scale }, at);
  const centre: Pixel = [frame.centre[0] + still[0] - moved[0], frame.centre[1] + still[1] - moved[1]];
  return kept({ ...frame, scale, centre }, picture);
}

/** Moves the view only as far as is needed to have the element on the stage. */
export function showing(frame: StageFrame, picture: PictureSize, pixel: Pixel, marginPx = 40): StageFrame {
  const [x, y] = screenFromPixel(frame, pixel);
  const off = (at: number, size: number): number => (at < marginPx ? marginPx - at : at > size - marginPx ? size - marginPx - at : 0);
  return pannedBy(frame, picture, off(x, frame.widthPx), off(y, frame.heightPx));
}
