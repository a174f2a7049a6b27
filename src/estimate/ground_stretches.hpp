// SPDX-License-Identifier: Apache-2.0
// What a cable lies under along its route: the plan's areas where there is a path, else what the cable itself says.
// Where areas overlap, the one listed last lies on top.
#pragma once

#include <optional>
#include <vector>

#include "job/job.hpp"

namespace duskwire::estimate {

struct GroundStretch {
  std::optional<job::GroundKind> ground;  // empty: no area there and the cable does not say
  double length_m = 0;
};

// From `from` to `to`; neighbours of one kind are one stretch; the sum is `route_m`, to which a path is scaled where
// the job also gives a length. Stretches of no length are left out.
[[nodiscard]] std::vector<GroundStretch> ground_stretches(const job::Plan& plan, const job::Cable& cable,
                                                          double route_m);

// Paving, a drive or a street: what a cable crosses in a sleeve.
[[nodiscard]] bool is_hard(job::GroundKind ground);

}  // namespace duskwire::estimate
