// SPDX-License-Identifier: Apache-2.0
// The steps of the work on a photograph, in their order; each can be gone back to.
import type { IconName } from '../ui/icons';

export const steps = [
  { id: 'photograph', title: 'Photograph', icon: 'picture' },
  { id: 'wall', title: 'Known wall', icon: 'measure' },
  { id: 'surfaces', title: 'Surfaces', icon: 'area' },
  { id: 'measure', title: 'Measure', icon: 'locate' },
  { id: 'night', title: 'Lamps and night', icon: 'lamp' },
] as const satisfies readonly { id: string; title: string; icon: IconName }[];

export type StepId = (typeof steps)[number]['id'];
