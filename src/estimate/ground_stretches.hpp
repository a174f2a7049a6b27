// SPDX-License-Identifier: Apache-2.0
// What a cable lies under along its route: by the plan where there is a path, else what the cable itself says.
#pragma once

#include <vector>

#include "job/job.hpp"
#include "job/plan_ground.hpp"

namespace duskwire::estimate {

// From `from` to `to`; the sum is `route_m`, to which a path is scaled where the job also gives a length. A kind is
// empty where the plan has no area and the cable does not say.
[[nodiscard]] std::vector<job::GroundStretch> ground_stretches(const job::PlanGround& ground, const job::Cable& cable,
                                                               double route_m);

// Paving, a drive or a street: what a cable crosses in a sleeve.
[[nodiscard]] bool is_hard(job::GroundKind ground);

}  // namespace duskwire::estimate
