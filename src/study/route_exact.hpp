// SPDX-License-Identifier: Apache-2.0
// A small plan as the problem whose exact optimum a solver can bound: the plan's own trenches and straight ones between
// its points. Internal to the room.
#pragma once

#include "base/result.hpp"
#include "study/route_problem.hpp"
#include "wiring/exact_problem.hpp"
#include "wiring/planner.hpp"

namespace duskwire::study {

// An error where the job is too large, or not of the kind: what is in the way, in one sentence.
[[nodiscard]] Result<wiring::ExactProblem> exact_problem(const RouteProblem& asked, const wiring::GroundMap& map,
                                                         const wiring::PlanAnswer& plan);

}  // namespace duskwire::study
