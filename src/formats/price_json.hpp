// SPDX-License-Identifier: Apache-2.0
// A price, the move from one to another, and a price band as JSON: docs/results.md.
#pragma once

#include "formats/json_text.hpp"
#include "study/price.hpp"
#include "study/price_band.hpp"

namespace duskwire::formats {

[[nodiscard]] Json price_json(const estimate::Price& price);
[[nodiscard]] Json price_difference_json(const estimate::PriceDifference& difference);
[[nodiscard]] Json price_band_json(const study::PriceBand& band);

}  // namespace duskwire::formats
