// SPDX-License-Identifier: Apache-2.0
// The lines of a price but for tax: each amount rounded once, and said so where one cannot be counted.
#pragma once

#include <vector>

#include "estimate/price.hpp"

namespace duskwire::estimate {

[[nodiscard]] std::vector<PriceLine> price_lines(const job::Job& job, const Materials& list, const Labour& labour,
                                                 const PriceRates& rates, Problems& problems);

}  // namespace duskwire::estimate
