// SPDX-License-Identifier: Apache-2.0
// Cables that stay as they are: laid before anything else, never taken up, split or resized.
#pragma once

#include "wiring/search.hpp"

namespace duskwire::wiring {

// Those that begin at an output, with the output; others are fed by feed_kept.
void lay_kept(const PlanProblem& problem, Layout& layout);
// A cable to the beginning of each tree that hangs on nothing yet. What cannot be fed stays unlaid, its lamps left out.
void feed_kept(const PlanProblem& problem, Search& search, Wiring& wiring);

}  // namespace duskwire::wiring
