// SPDX-License-Identifier: Apache-2.0
// Which transformers hang at a place: the cheapest that carry its outputs with headroom. Where one does not do, the
// outputs are dealt out in their order to as many as are needed.
#pragma once

#include <cstdint>
#include <vector>

#include "wiring/layout.hpp"

namespace duskwire::wiring {

struct UnitChoice {
  std::uint32_t type = none;  // of all but the last; none: nothing carries them
  std::uint32_t last_type = none;
  std::uint32_t count = 0;
  double cost = 0;
};

inline constexpr std::uint32_t most_units_at_place = 6;

// `outputs`: indices of the living outputs of that place, in their order. Sets each one's unit and siblings_a. A single
// unit that costs less than `least_cost` is not taken: it was tried and its own resistance made it too small.
[[nodiscard]] UnitChoice choose_units(const PlanProblem& problem, const Place& place, Layout& layout,
                                      const std::vector<std::uint32_t>& outputs, double least_cost = 0);

[[nodiscard]] std::vector<std::uint32_t> outputs_at(const Layout& layout, std::uint32_t place);

}  // namespace duskwire::wiring
