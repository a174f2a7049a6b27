// SPDX-License-Identifier: Apache-2.0
// Hindsight: the fewest readings with which a fault could have been singled out by somebody who knows what each of them
// is going to show. No order of reading can do better, whoever chooses.
#pragma once

#include "diagnosis/answer.hpp"
#include "faulty/truth.hpp"

namespace duskwire::bench {

// Readings above ground, each with one error of its meter for all tries, until the true bracket is likelier than 90 %:
// 0, 1 or 2 by trying every reading and every pair of them. 3 stands for three or more: what pairs do not reach is not
// searched further, which leaves the figure a lower bound.
[[nodiscard]] int fewest_readings(const diagnosis::FaultProblem& plan, const faulty::Truth& truth,
                                  const faulty::Mischief& mischief, std::uint64_t seed);

}  // namespace duskwire::bench
