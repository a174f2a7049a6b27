// SPDX-License-Identifier: Apache-2.0
// Physics: how far apart two places are at best, if every reading above ground were taken once. Where that is less than
// the noise, no diagnosis can tell them apart, and the bench counts them as one.
#pragma once

#include <vector>

#include "diagnosis/answer.hpp"
#include "diagnosis/hypotheses.hpp"
#include "diagnosis/model.hpp"
#include "faulty/truth.hpp"

namespace duskwire::bench {

class Physics {
 public:
  explicit Physics(const diagnosis::FaultProblem& plan);

  // Standard deviations between all readings that the true fault foretells and those of the likest fault in `bracket`,
  // its parameter free; errors of plan and meter with what they share. Infinite where some lamp or breaker tells.
  [[nodiscard]] double apart(const diagnosis::Fault& fault, std::uint32_t place, const diagnosis::Bracket& bracket);

 private:
  struct Foreseen {
    Eigen::VectorXd numbers;
    std::vector<bool> states;
  };
  [[nodiscard]] Foreseen foresee(const diagnosis::Fault& fault, std::uint32_t place) const;

  diagnosis::FaultProblem problem_;  // with what takes no spade
  std::vector<diagnosis::Group> groups_;
  diagnosis::Model model_;
};

// Above ground: what a policy may ask without digging.
[[nodiscard]] bool needs_no_spade(const diagnosis::Candidate& candidate);

}  // namespace duskwire::bench
