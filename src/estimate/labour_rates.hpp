// SPDX-License-Identifier: Apache-2.0
// What an hour, a trip and a metre of trench are worth in a job: the offer's own values, else those of the trade.
#pragma once

#include "estimate/installed.hpp"
#include "job/job.hpp"

namespace duskwire::estimate {

// The hour's cost and the minutes of trench, with which a wiring is planned and priced alike.
[[nodiscard]] InstallRates install_rates(const job::Job& job);

}  // namespace duskwire::estimate
