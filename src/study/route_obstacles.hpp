// SPDX-License-Identifier: Apache-2.0
// Where no sound wiring was found: which constraint stands in the way of which lamp, and what to relax. Internal to the
// room.
#pragma once

#include <vector>

#include "study/report.hpp"
#include "study/route.hpp"
#include "study/route_problem.hpp"
#include "wiring/planner.hpp"

namespace duskwire::study {

// Errors that another wiring could cure; those of receptacles, cords, mounting and water are the site's own.
[[nodiscard]] Findings wiring_errors(const Ruleset& ruleset, const Report& report);

void add_obstacles(const job::Job& job, const RouteProblem& asked, const RouteGoods& goods,
                   const wiring::Planner& planner, const Findings& open, std::vector<RouteObstacle>& obstacles);

// Errors that no wiring cures: they stand beside the plan.
void add_remarks(const Ruleset& ruleset, const Report& report, std::vector<RouteObstacle>& obstacles);

}  // namespace duskwire::study
