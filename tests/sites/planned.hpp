// SPDX-License-Identifier: Apache-2.0
// The planner asked once, by steps instead of by the clock: the same answer on every computer, however slow.
#pragma once

#include "job/job.hpp"
#include "study/route.hpp"

namespace duskwire::sites {

// By the stock and the US rules; `request.most_steps` says how long.
[[nodiscard]] study::RouteAnswer planned(const job::Job& site, const study::RouteRequest& request);

}  // namespace duskwire::sites
