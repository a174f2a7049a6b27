// SPDX-License-Identifier: Apache-2.0
// A price as text: the sum, the lines, the hours, cost and margin, options, what was taken for granted. And why a price
// moved.
#pragma once

#include <string>

#include "cli/text_style.hpp"
#include "estimate/price.hpp"
#include "estimate/price_difference.hpp"
#include "job/job.hpp"

namespace duskwire::cli {

[[nodiscard]] std::string price_text(const job::Job& job, const estimate::Price& price, const TextStyle& style);

// `before` is the title of the job that is compared with.
[[nodiscard]] std::string price_difference_text(const std::string& before, const estimate::PriceDifference& difference,
                                                const TextStyle& style);

}  // namespace duskwire::cli
