// SPDX-License-Identifier: Apache-2.0
// Shapes of beams by the words of the trade. The formula of each: docs/algorithms/photometry.md.
#pragma once

#include <cstdint>

namespace duskwire::job {

// How a luminaire spreads its light where no intensity file says it.
enum class BeamShape : std::uint8_t {
  by_kind = 0,  // the usual one of its kind and beam
  spot = 1,
  flood = 2,      // even within its beam, steep at the edge
  wash = 3,       // wide to the sides, less so up and down
  ring = 4,       // a pool all round under a hat
  half_ring = 5,  // the same to the front only
  strip = 6,
  step = 7,       // out of a riser, cut off below the eye
  all_round = 8,  // a bare capsule
};

}  // namespace duskwire::job
