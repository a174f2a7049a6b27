// SPDX-License-Identifier: Apache-2.0
// The Steiner tree problem in graphs: the cheapest tree that joins given nodes, over others where that is cheaper.
// Anytime: best so far within the effort, never dearer with more of it; with a lower bound, so that the gap is known.
#pragma once

#include <cstdint>
#include <vector>

#include "base/result.hpp"
#include "wiring/effort.hpp"
#include "wiring/graph.hpp"

namespace duskwire::wiring {

struct SteinerProblem {
  Graph graph;                           // costs finite and not negative
  std::vector<std::uint32_t> terminals;  // at least one; repeats count once
};

struct SteinerOptions {
  Effort effort;
};

struct SteinerTree {
  std::vector<std::uint32_t> edges;  // ascending indices into the graph's edges
  double cost = 0;
  double lower_bound = 0;  // no tree costs less
  bool proven = false;     // cost is the optimum
  std::uint64_t steps = 0;
};

// Fails where a number is out of its range or the terminals are not connected.
[[nodiscard]] Result<SteinerTree> steiner_tree(const SteinerProblem& problem, const SteinerOptions& options = {});

}  // namespace duskwire::wiring
