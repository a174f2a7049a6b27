// SPDX-License-Identifier: Apache-2.0
// A picture that is to lie beneath the plan: scaled down where it is larger than one needs to draw on, kept with the
// job's other pictures, and as wide as a usual plot until two points say better.
import type { Underlay } from '../job/document';
import { takePicture } from '../storage/picture';
import { app } from './app.svelte';

const usualPlotM = 30;

export interface TakenUnderlay {
  readonly underlay: Underlay;
  /** What to tell whoever brought it; empty where it was taken as it is. */
  readonly remark: string;
}

export async function underlayFrom(picture: File): Promise<TakenUnderlay> {
  const { blob, widthPx, heightPx, scaled } = await takePicture(picture);
  const image = await app().pictures.put(blob);
  const m_per_px = usualPlotM / widthPx;
  return {
    underlay: { image, m_per_px, origin: [-usualPlotM / 2, (heightPx * m_per_px) / 2], opacity: 0.8 },
    remark: scaled ? `The picture was scaled down to ${widthPx} × ${heightPx}: enough to draw on.` : '',
  };
}
