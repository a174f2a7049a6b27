// SPDX-License-Identifier: Apache-2.0
// A lower bound on what any wiring on the same ways costs: trenches and one thinnest cable in each as a Steiner tree,
// and the least transformer that carries the lamps. Internal to the room.
#pragma once

#include "study/route_problem.hpp"

namespace duskwire::study {

// In the money of the problem; lamps not included.
[[nodiscard]] double route_bound(const RouteProblem& asked);

}  // namespace duskwire::study
