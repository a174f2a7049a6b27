// SPDX-License-Identifier: Apache-2.0
// What every sheet of one print says the same: its date, the revision it grew from, whether its volts are of this job.
import type { JobDocument } from '../../job/document';
import type { JobSession } from '../../session/job-session.svelte';
import { isCurrent } from './answers';

export interface SheetFacts {
  readonly date: string;
  readonly revision: string;
  readonly current: boolean;
  /** Which things the plan cannot show, in words; empty where it shows all. */
  readonly placeless: string;
}

/** The month in letters: 3/4 is another day on the other side of the sea. */
export const dateText = (date: Date): string => date.toLocaleDateString('en', { day: 'numeric', month: 'short', year: 'numeric' });

/** A list of lamps may be wired before anyone drew where they stand. */
export function placelessWords({ luminaires = [], transformers = [] }: JobDocument): string {
  const count = (things: readonly { readonly position?: unknown }[]): number => things.filter(({ position }) => !position).length;
  const counts = [[count(luminaires), 'light'], [count(transformers), 'transformer']] as const;
  const parts = counts.flatMap(([number, word]) => (number === 0 ? [] : [`${number} ${word}${number === 1 ? '' : 's'}`]));
  return parts.length === 0 ? '' : `Without a place, so not on this plan: ${parts.join(', ')}.`;
}

export function factsOf(session: JobSession, now: Date): SheetFacts {
  const { revision, state } = session.autosave;
  const changed = state === 'saved' ? '' : ', changed';
  return { date: dateText(now), revision: revision > 0 ? `${revision}${changed}` : 'not saved yet', current: isCurrent(session), placeless: placelessWords(session.document) };
}
