// SPDX-License-Identifier: Apache-2.0
// What a sheet takes of the live answer; nothing where the answer is not of the job as it stands.
import type { JobSession } from '../../session/job-session.svelte';
import type { LiveAnswer } from '../../session/live.svelte';

export type Answers = Pick<LiveAnswer, 'lamps' | 'transformers' | 'outputs' | 'findingsOf'>;

/** Marks on paper are smaller than on a screen: no finger has to hit them. */
export const markScale = 0.62;

const none: Answers = { lamps: new Map(), transformers: new Map(), outputs: new Map(), findingsOf: new Map() };

/** Whether the report speaks of the document as it is now. */
export const isCurrent = ({ live, document }: JobSession): boolean =>
  live.report !== undefined && live.of === document && live.failure === undefined && !live.problems.some(({ severity }) => severity === 'error');

export const answersOf = (session: JobSession): Answers => (isCurrent(session) ? session.live : none);
