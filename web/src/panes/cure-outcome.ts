// SPDX-License-Identifier: Apache-2.0
// What a cure has brought about: the finding gone, or its number before and after.
import type { Finding, Report } from '../engine/report';

export interface Outcome {
  readonly gone: boolean;
  readonly words: string;
}

const amount = (value: number, unit: string | undefined): string => `${Number(value.toPrecision(4))}${unit ? ` ${unit}` : ''}`;

export function outcomeOf(before: Finding, report: Report): Outcome {
  const after = report.findings.find(({ id, subject }) => id === before.id && subject === before.subject);
  if (!after) return { gone: true, words: 'The finding is gone.' };
  const { measured: was, unit } = before;
  const { measured: is, limit } = after;
  if (typeof was !== 'number' || typeof is !== 'number' || was === is) return { gone: false, words: 'The finding is still there.' };
  const against = typeof limit === 'number' ? `; the limit is ${amount(limit, unit)}` : '';
  return { gone: false, words: `The finding is still there: ${amount(was, unit)} before, ${amount(is, unit)} now${against}.` };
}
