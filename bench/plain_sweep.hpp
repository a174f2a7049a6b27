// SPDX-License-Identifier: Apache-2.0
// The yardstick: a backward/forward sweep as one would write it for this one task. Constant-power lamps with the same
// regulation branch, fixed-point iteration from a flat start, no allocation, arrays in breadth-first order.
#pragma once

#include <vector>

#include "garden.hpp"

namespace duskwire::bench {

class PlainSweep {
 public:
  explicit PlainSweep(const ReducedGarden& garden);

  // Sweeps all trees together until no lamp's current changes by 1e-9 A or more; the number of sweeps.
  int solve();
  // The same, each tree to its end before the next begins: what is swept stays in the cache.
  int solve_tree_by_tree();

  [[nodiscard]] const std::vector<double>& volts() const { return v_; }

 private:
  int solve_range(std::uint32_t first, std::uint32_t last);

  const ReducedGarden& garden_;
  std::vector<double> v_;
  std::vector<double> lamp_a_;
  std::vector<double> branch_a_;
};

}  // namespace duskwire::bench
