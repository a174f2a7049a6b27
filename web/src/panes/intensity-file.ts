// SPDX-License-Identifier: Apache-2.0
// A maker's file of light intensities into the job's article: its text, and the lumens and beam that it says.
import type { PhotometryReport } from '../engine/photometry';
import type { LuminaireItem } from '../job/document';

/** What the job may hold of it (docs/job-format.md). */
export const longestFileChars = 200_000;

/** Such files are ASCII, UTF-8 or Latin-1. */
export function intensityText(bytes: Uint8Array): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder('latin1').decode(bytes);
  }
}

const upTo = (value: number, most: number): number => Math.min(most, Number(value.toPrecision(4)));

/** Lumens and beam follow the file, so that lists and choices agree with its light. */
export function withIntensityFile(item: LuminaireItem, text: string, report: PhotometryReport): LuminaireItem {
  const beams = report.light.beams.map(({ beam_deg }) => beam_deg ?? 360);
  return { ...item, intensity_file: text, flux_lm: upTo(report.light.flux_lm, 100_000), beam_deg: upTo(Math.max(...beams), 360) };
}

export function withoutIntensityFile(item: LuminaireItem): LuminaireItem {
  const rest: { intensity_file?: string } & LuminaireItem = { ...item };
  delete rest.intensity_file;
  return rest;
}
