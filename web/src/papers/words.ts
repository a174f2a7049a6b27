// SPDX-License-Identifier: Apache-2.0
// The papers in words: what each is called and for whom, sizes, names of files.
import type { JobDocument } from '../job/document';
import type { PaperKind } from '../storage/server';

export const paperTitles: Readonly<Record<PaperKind, string>> = {
  proposal: 'Proposal',
  crew: 'Crew set',
  commissioning: 'Commissioning sheet',
  owner: 'Owner’s pack',
};

export const paperNotes: Readonly<Record<PaperKind, string>> = {
  proposal: 'For the client: night pictures, what each light does, options, price, terms',
  crew: 'Plan at scale, runs, cuts, joints, trenches, aiming',
  commissioning: 'Volts and amps to expect, blanks to fill in',
  owner: 'Map, timer card, care calendar, warranties',
};

export const bytesText = (bytes: number): string => (bytes < 1_000_000 ? `${Math.max(1, Math.round(bytes / 1000))}\u00a0kB` : `${(bytes / 1_000_000).toFixed(1)}\u00a0MB`);

/** The beginning of a file's name. */
export const fileStem = ({ title }: JobDocument): string => (title ?? '').toLowerCase().replaceAll(/[^a-z0-9]+/g, '-').replaceAll(/^-|-$/g, '') || 'job';
