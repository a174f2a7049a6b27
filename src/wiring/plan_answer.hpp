// SPDX-License-Identifier: Apache-2.0
// A wiring of the search as the planner's answer.
#pragma once

#include "wiring/search.hpp"

namespace duskwire::wiring {

[[nodiscard]] PlanAnswer answer_of(const PlanProblem& problem, const Wiring& wiring);

}  // namespace duskwire::wiring
