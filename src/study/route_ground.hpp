// SPDX-License-Identifier: Apache-2.0
// The plan of a job as the planner's ground: what may be dug at what cost, where nobody digs. Internal to the room.
#pragma once

#include "study/route.hpp"
#include "study/route_goods.hpp"
#include "wiring/ground_graph.hpp"

namespace duskwire::study {

// Ducts are the plan's sleeves, index by index. Throws nothing; what is no outline encloses nothing.
[[nodiscard]] wiring::GroundMap ground_map(const job::Job& job, const Ruleset& ruleset, const RouteRequest& request,
                                           const RoutePrices& prices, const RouteGoods& goods);

}  // namespace duskwire::study
