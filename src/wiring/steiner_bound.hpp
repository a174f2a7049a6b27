// SPDX-License-Identifier: Apache-2.0
// A lower bound on the cost of a Steiner tree by dual ascent (Wong 1984: A dual ascent approach for Steiner tree
// problems on a directed graph, Mathematical Programming 28).
#pragma once

#include <cstdint>
#include <vector>

#include "wiring/effort.hpp"
#include "wiring/graph.hpp"

namespace duskwire::wiring {

// Valid however early the budget ends it.
[[nodiscard]] double steiner_bound(const Graph& graph, const Neighbours& neighbours,
                                   const std::vector<std::uint32_t>& terminals, Budget& budget);

}  // namespace duskwire::wiring
