// SPDX-License-Identifier: Apache-2.0
// What every sheet of one print says the same: its date, the revision it grew from, whether its volts are of this job.
import type { JobSession } from '../../session/job-session.svelte';
import { isCurrent } from './answers';

export interface SheetFacts {
  readonly date: string;
  readonly revision: string;
  readonly current: boolean;
}

/** The month in letters: 3/4 is another day on the other side of the sea. */
export const dateText = (date: Date): string => date.toLocaleDateString('en', { day: 'numeric', month: 'short', year: 'numeric' });

export function factsOf(session: JobSession, now: Date): SheetFacts {
  const { revision, state } = session.autosave;
  const changed = state === 'saved' ? '' : ', changed';
  return { date: dateText(now), revision: revision > 0 ? `${revision}${changed}` : 'not saved yet', current: isCurrent(session) };
}
