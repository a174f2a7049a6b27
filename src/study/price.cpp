// SPDX-License-Identifier: Apache-2.0
#include "study/price.hpp"

namespace duskwire::study {

estimate::Price price(const job::Job& job, const job::Catalogue& stock,
                      const std::vector<estimate::DepositRule>& deposit_rules) {
  estimate::PriceOptions options;
  options.deposit_rules = deposit_rules;
  return estimate::price(job, stock, options);
}

estimate::PriceDifference price_difference(const job::Job& before, const job::Job& after, const job::Catalogue& stock) {
  estimate::PriceOptions options;
  options.with_options = false;
  return estimate::price_difference(estimate::price(before, stock, options), estimate::price(after, stock, options),
                                    after.site.units);
}

}  // namespace duskwire::study
