// SPDX-License-Identifier: Apache-2.0
// What is wrong according to the numbers: lamps out of their windows, loads over their limits, shorts that never trip,
// margins that are too small. Internal to the room.
#pragma once

#include "study/network_builder.hpp"
#include "study/numbers.hpp"
#include "study/trouble.hpp"

namespace duskwire::study {

// A layout that takes less than this factor on its load or its lengths before a lamp leaves regulation is on the edge.
// A choice of this tool: about one more lamp on a run of seven.
inline constexpr double least_margin = 1.15;

// Shares 0..1 that the shop allows, each bounded to something that can be worked with.
struct LoadShares {
  double transformer = 0.8;
  double output = 0.8;
};
[[nodiscard]] LoadShares load_shares(const job::Practice& practice);

// Those of the numbers only; Built::troubles has the others. Parts that `scope` left out are not judged.
[[nodiscard]] Troubles number_troubles(const Built& built, const Numbers& numbers, const Scope& scope = {});

}  // namespace duskwire::study
