// SPDX-License-Identifier: Apache-2.0
// Cables that are held fast, as trees of the planner's problem. Internal to the room.
#pragma once

#include <cstdint>
#include <vector>

#include "study/route_problem.hpp"

namespace duskwire::study {

// `ends`: nodes of the first and the last point of each cable that is held fast and drawn, in the order of the pins.
// Adds edges of their own to the ground graph; tells what cannot be held.
void add_kept(const job::Job& job, const RouteGoods& goods, const RouteRequest& request,
              const std::vector<std::uint32_t>& ends, RouteProblem& out);

}  // namespace duskwire::study
