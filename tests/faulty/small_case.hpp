// SPDX-License-Identifier: Apache-2.0
// Small case: a dozen causes and a score of readings of one garden, each reading with plain outcomes, so that the exact
// optimum over all orders of reading can be computed. Shared by the tests and the bench.
#pragma once

#include <cstdint>
#include <vector>

#include "diagnosis/worlds.hpp"
#include "faulty/truth.hpp"
#include "wiring/dice.hpp"

namespace duskwire::faulty {

struct SmallCase {
  diagnosis::FaultProblem problem;       // its candidates are the readings
  std::vector<diagnosis::World> causes;  // at most 63; what each reading shows is rounded to steps that no error blurs
  std::vector<std::vector<std::uint32_t>> shown;  // by reading and cause: which of its outcomes
};

// Causes are drawn by their chance from the faults of the plan, at different brackets; readings at random, the look at
// all lamps among them.
[[nodiscard]] SmallCase make_small_case(const diagnosis::FaultProblem& plan, std::size_t causes, std::size_t readings,
                                        wiring::Dice& dice);

// Mean minutes until no reading tells the causes that are left apart.
// Of the best order there is: dynamic programming over all subsets of the causes. Of many causes see least_cost.hpp.
[[nodiscard]] double least_cost_min(const SmallCase& one);
[[nodiscard]] double engine_cost_min(const SmallCase& one);  // taking what the diagnosis would read next
[[nodiscard]] double random_cost_min(const SmallCase& one, wiring::Dice& dice);

// The entropy bound: bits that all readings together would tell, over the most bits a minute that any one reading is
// expected to tell at the beginning.
[[nodiscard]] double entropy_bound_min(const SmallCase& one);

}  // namespace duskwire::faulty
