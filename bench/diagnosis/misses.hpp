// SPDX-License-Identifier: Apache-2.0
// Misses: why a true fault was not among the first, judged against what all readings above ground together would tell.
#pragma once

#include "policies.hpp"

namespace duskwire::bench {

enum class Blame {
  none,     // it was among them
  physics,  // what ranks above it reads alike, within the noise, at every place above ground
  choice,   // all readings together do tell; those that were taken did not
  model,    // neither
};

struct Judged {
  std::size_t rank = 0;        // of the true fault
  std::size_t rank_apart = 0;  // what no reading above ground tells apart from it left out
  std::size_t rank_all = 0;    // with every reading above ground taken once
  Blame blame = Blame::none;
};

// After `readings` of them. `told`: prints a miss of the first three.
[[nodiscard]] Judged judge(const diagnosis::FaultProblem& plan, const faulty::Truth& truth, const Played& played,
                           std::size_t readings, bool told, wiring::Dice& dice);

}  // namespace duskwire::bench
