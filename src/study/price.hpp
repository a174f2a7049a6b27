// SPDX-License-Identifier: Apache-2.0
// The verbs `price` and `price_difference`: what a job costs, and why it costs more or less than another.
#pragma once

#include <vector>

#include "estimate/price.hpp"
#include "estimate/price_difference.hpp"
#include "job/job.hpp"

namespace duskwire::study {

[[nodiscard]] estimate::Price price(const job::Job& job, const job::Catalogue& stock,
                                    const std::vector<estimate::DepositRule>& deposit_rules);

// From `before` to `after`, options left aside.
[[nodiscard]] estimate::PriceDifference price_difference(const job::Job& before, const job::Job& after,
                                                         const job::Catalogue& stock);

}  // namespace duskwire::study
