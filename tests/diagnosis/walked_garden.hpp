// SPDX-License-Identifier: Apache-2.0
// Invented gardens whose wiring is known, and what somebody without a plan would find there: ways that a locator
// followed, amperes by clamp, volts at some lamps, each with its error. Seeded.
#pragma once

#include <cstdint>
#include <vector>

#include "diagnosis/trace.hpp"

namespace duskwire::diagnosis::tests {

struct WalkedMix {
  std::uint32_t runs_low = 2;
  std::uint32_t runs_high = 4;
  std::uint32_t lamps_low = 4;  // on each run
  std::uint32_t lamps_high = 9;
  double between_m = 2.5;  // two runs side by side in one border
  double lead_m = 1.2;     // mean of a lamp's lead
  bool amps = true;        // of each run, and at one place on its way
  bool volts = true;       // at every third lamp
  bool lifted = false;     // one run was lifted, and all lamps looked at
};

struct WalkedGarden {
  TraceProblem problem;
  std::vector<std::uint32_t> run_of_lamp;
  std::vector<geometry::Point2> tap_of_lamp;  // where it is spliced
  std::vector<std::uint32_t> cable_of_run;    // by loop_ohm_per_m of the problem
};

[[nodiscard]] WalkedGarden walked_garden(std::uint64_t seed, const WalkedMix& mix);

}  // namespace duskwire::diagnosis::tests
