// SPDX-License-Identifier: Apache-2.0
#include "formats/price_json.hpp"

#include "formats/problems_json.hpp"
#include "formats/result_price.hpp"
#include "formats/write_result.hpp"

namespace duskwire::formats {

Json price_json(const estimate::Price& price) {
  Json out = result_json(price);
  out["problems"] = problems_json(price.problems);
  return out;
}

Json price_difference_json(const estimate::PriceDifference& difference) {
  Json out = result_json(difference);
  out["problems"] = problems_json(difference.problems);
  return out;
}

Json price_band_json(const study::PriceBand& band) { return result_json(band); }

}  // namespace duskwire::formats
