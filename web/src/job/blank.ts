// SPDX-License-Identifier: Apache-2.0
// A new job: nothing but where and by which rules. What the person did not say is not in it.
import type { DisplayUnits, JobDocument } from './document';
import { randomId } from './ids';

export interface NewJob {
  readonly title: string;
  readonly client?: string;
  readonly address?: string;
  readonly units: DisplayUnits;
  readonly ruleset: string;
  readonly currency: string;
  readonly timeZone: string;
  /** ISO 8601 date. */
  readonly today: string;
}

const mainsOf = (ruleset: string): { mains_v: number; mains_hz: number } =>
  ruleset === 'iec' ? { mains_v: 230, mains_hz: 50 } : { mains_v: 120, mains_hz: 60 };

export function blankJob(wanted: NewJob): JobDocument {
  return {
    format: 'duskwire-job',
    version: 1,
    id: randomId('job', 12),
    title: wanted.title,
    created: wanted.today,
    stage: 'enquiry',
    site: {
      ...(wanted.timeZone !== '' && { time_zone: wanted.timeZone }),
      ...(wanted.address && { address: wanted.address }),
      ...mainsOf(wanted.ruleset),
      ruleset: wanted.ruleset,
      units: wanted.units,
      currency: wanted.currency,
    },
    ...(wanted.client && { client: { name: wanted.client } }),
    catalogue: { currency: wanted.currency },
    plan: {},
    luminaires: [],
    transformers: [],
    cables: [],
    joints: [],
  };
}
