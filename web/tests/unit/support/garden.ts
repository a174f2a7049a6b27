// SPDX-License-Identifier: Apache-2.0
import type { JobDocument } from '../../../src/job/document';

export const garden = (title = 'Garden', id = 'g'): JobDocument => ({
  format: 'duskwire-job',
  version: 1,
  id,
  title,
  site: { mains_v: 120, mains_hz: 60, ruleset: 'us' },
  luminaires: [{ id: 'F1', item: 'a' }],
});
