// SPDX-License-Identifier: Apache-2.0
// The camera and its trust in words: where it stood, which way it looked, how wide it sees, how well the corners agree.
import type { CalibrationAnswer, Camera } from '../engine/calibration';
import type { NightProbe } from '../engine/night';
import type { JobDocument } from '../job/document';
import { numberText, quantityText, type UnitSystem } from '../units/quantity';
import { windOf } from '../job/walls';

const degrees = 180 / Math.PI;

/** "The camera stood 11.2 m away, 1.6 m above grade, looking north. It sees 64° across." */
export function cameraWords(camera: Camera, northDeg: number | undefined, units: UnitSystem, wallMiddle?: readonly number[]): string {
  const [x, y, z] = camera.position;
  const across = 2 * Math.atan(camera.width_px / 2 / camera.focal_px) * degrees;
  const [ax, ay] = camera.axes[2];
  const far = wallMiddle ? `${quantityText(Math.hypot(x - wallMiddle[0]!, y - wallMiddle[1]!), 'length', units, 1)} from the wall, ` : '';
  return `The camera stood ${far}${quantityText(z, 'length', units, 1)} above grade, looking ${windOf([ax, ay], northDeg)}. It sees ${quantityText(across, 'angle', units, 0)} across.`;
}

/** How far the marked corners are from where the found camera would see them. */
export function residualWords({ residual_px, position_error_m }: CalibrationAnswer, camera: Camera, clickErrorPx: number, units: UnitSystem): { readonly good: boolean; readonly words: string } {
  const trust = position_error_m === undefined || position_error_m === null ? '' : ` Its place is known to about ±${quantityText(position_error_m, 'length', units)}.`;
  if (residual_px === undefined || residual_px === null) return { good: true, words: `The corners alone fix the camera; nothing is left over to check it by.${trust}` };
  const good = residual_px <= 3 * clickErrorPx;
  const share = (residual_px / camera.width_px) * 100;
  const amount = `${residual_px.toFixed(1)} picture elements (${share.toFixed(2)} % of the width)`;
  return { good, words: good ? `The corners agree with it within ${amount}.${trust}` : `The corners are off by ${amount}. Look at each corner again, and at width and height.${trust}` };
}

/** "8.41 ± 0.12 m". */
export function lengthWords(lengthM: number, errorM: number | null | undefined, units: UnitSystem): string {
  if (errorM === null || errorM === undefined) return quantityText(lengthM, 'length', units);
  return `${numberText(lengthM, 'length', units)} ± ${quantityText(errorM, 'length', units)}`;
}

/** Small numbers with more figures: three that count, at most two decimals. */
export const figuresOf = (value: number): string => (value >= 100 ? value.toFixed(0) : value >= 10 ? value.toFixed(1) : value.toFixed(2));

export function probeWords(probe: NightProbe): string {
  const light = probe.lux === null ? 'no surface is outlined here' : `${figuresOf(probe.lux)} lx`;
  return `${light}, ${probe.cd_m2 < 0.005 ? 'under 0.01' : figuresOf(probe.cd_m2)} cd/m²`;
}

const mostNamed = 3;

export function probeLampWords(probe: NightProbe, job: JobDocument): string {
  if (probe.lamps.length === 0) return 'No lamp reaches this place.';
  const named = probe.lamps.slice(0, mostNamed).map(({ id, lux }) => `${job.luminaires?.find((lamp) => lamp.id === id)?.name || id} ${figuresOf(lux)} lx`);
  const more = probe.lamps.length - named.length;
  return `${named.join(', ')}${more > 0 ? `, ${more} more` : ''}`;
}
