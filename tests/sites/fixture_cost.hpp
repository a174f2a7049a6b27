// SPDX-License-Identifier: Apache-2.0
// What no wiring changes: lamps with their mounts, price and time to mount them.
#pragma once

#include "estimate/installed.hpp"
#include "job/job.hpp"

namespace duskwire::sites {

[[nodiscard]] double fixture_cost_minor(const job::Job& job, const job::Catalogue& stock,
                                        const estimate::InstallRates& rates);

}  // namespace duskwire::sites
