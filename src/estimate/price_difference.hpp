// SPDX-License-Identifier: Apache-2.0
// Why a price moved: two prices line by line, a sentence for each line that differs.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "estimate/price.hpp"

namespace duskwire::estimate {

struct LineDifference {
  std::string id;
  PriceGroup group = PriceGroup::material;
  std::int64_t before_minor = 0;
  std::int64_t after_minor = 0;
  std::int64_t moved_minor = 0;
  std::string reason;  // one sentence
};

struct PriceDifference {
  std::string currency;
  std::int64_t before_minor = 0;
  std::int64_t after_minor = 0;
  std::int64_t moved_minor = 0;
  std::vector<LineDifference> lines;  // the largest first; sum of moved_minor = moved_minor
  std::string summary;                // one sentence
  Problems problems;
};

// The prices have one currency; else there are no lines, and a problem says so. `units`: of lengths in the sentences.
[[nodiscard]] PriceDifference price_difference(const Price& before, const Price& after,
                                               job::DisplayUnits units = job::DisplayUnits::metric);

}  // namespace duskwire::estimate
