// SPDX-License-Identifier: Apache-2.0
#include "estimate/labour_rates.hpp"

namespace duskwire::estimate {

InstallRates install_rates(const job::Job& job) {
  InstallRates rates;
  if (!job.offer) return rates;
  const job::Rates& offered = job.offer->rates;
  rates.labour_minor_per_h = offered.labour_cost_minor_per_h.value_or(rates.labour_minor_per_h);
  for (const job::GroundRate& ground : offered.trenches) {
    rates.trench_min_per_m.at(static_cast<std::size_t>(ground.ground)) = ground.trench_min_per_m;
  }
  return rates;
}

}  // namespace duskwire::estimate
