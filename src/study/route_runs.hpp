// SPDX-License-Identifier: Apache-2.0
// One sentence a run: why it is so, and what the next cheaper choice would break, tried on a copy with the full solver.
// Internal to the room.
#pragma once

#include <vector>

#include "study/route_job.hpp"

namespace duskwire::study {

[[nodiscard]] std::vector<RouteRun> route_runs(const job::Job& job, const Ruleset& ruleset, const job::Catalogue& stock,
                                               const RouteGoods& goods, const RouteProblem& asked,
                                               const wiring::PlanAnswer& answer, const RoutedJob& routed);

}  // namespace duskwire::study
