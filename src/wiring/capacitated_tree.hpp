// SPDX-License-Identifier: Apache-2.0
// The capacitated minimum spanning tree: the cheapest tree over all nodes in which no branch at the root carries more
// than a capacity. Runs that leave one transformer, without shared trenches or volts, are of this kind. Anytime: best
// so far within the effort, never dearer with more of it.
#pragma once

#include <cstdint>
#include <vector>

#include "base/result.hpp"
#include "wiring/effort.hpp"

namespace duskwire::wiring {

struct CapacitatedProblem {
  std::uint32_t nodes = 0;
  std::uint32_t root = 0;
  double capacity = 0;         // of each branch at the root, in the unit of the demands
  std::vector<double> demand;  // of each node; the root's counts for nothing
  std::vector<double> cost;    // nodes x nodes, symmetric, finite and not negative: node a to node b at a * nodes + b

  [[nodiscard]] double between(std::uint32_t a, std::uint32_t b) const {
    return cost[static_cast<std::size_t>(a) * nodes + b];
  }
};

struct CapacitatedTree {
  std::vector<std::uint32_t> parent;  // of each node towards the root; the root is its own
  double cost = 0;
  double lower_bound = 0;  // the spanning tree without the capacity: no answer costs less
  std::uint64_t steps = 0;
};

// Fails where a number is out of its range or a single demand is over the capacity.
[[nodiscard]] Result<CapacitatedTree> capacitated_tree(const CapacitatedProblem& problem, const Effort& effort = {});

}  // namespace duskwire::wiring
