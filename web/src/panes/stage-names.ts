// SPDX-License-Identifier: Apache-2.0
// Words for where a job stands.
import type { Stage } from '../job/document';

export const stageNames: Record<Stage, string> = {
  enquiry: 'Enquiry',
  survey: 'Site walk',
  design: 'Design',
  offered: 'Offered',
  preparing: 'Preparing',
  installing: 'Installing',
  commissioned: 'Commissioned',
  in_care: 'In care',
  closed: 'Closed',
};
