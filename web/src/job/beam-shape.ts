// SPDX-License-Identifier: Apache-2.0
// How a lamp spreads its light where no maker's file says it (docs/algorithms/photometry.md).

export const beamShapes = ['by_kind', 'spot', 'flood', 'wash', 'ring', 'half_ring', 'strip', 'step', 'all_round'] as const;
export type BeamShape = (typeof beamShapes)[number];
