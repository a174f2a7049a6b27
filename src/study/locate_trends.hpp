// SPDX-License-Identifier: Apache-2.0
// What readings of several visits say together, and how much more each run would bear. Internal to the room.
#pragma once

#include <vector>

#include "study/locate.hpp"
#include "study/network_builder.hpp"

namespace duskwire::study {

// Readings beside the first of the same kind at the same place, taken before `date` (empty: at any visit), where they
// moved by more than meters do; and how much of it the output moved that feeds the place.
[[nodiscard]] std::vector<Drift> drifts(const Built& built, const std::vector<job::Reading>& readings,
                                        const std::string& date);

// By output: the load that its farthest place would still bear.
[[nodiscard]] std::vector<RunRoom> rooms(const Built& built);

}  // namespace duskwire::study
