// SPDX-License-Identifier: Apache-2.0
// The offer's rates and margins with the gaps filled by the common practice of the trade, and what was filled so. The
// figures and where they come from: docs/algorithms/price.md.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "estimate/installed.hpp"
#include "job/job.hpp"

namespace duskwire::estimate {

// A value that the offer does not give.
struct Assumption {
  std::string what;    // "Crew"
  std::string value;   // "2 people"
  std::string status;  // how sure we are of it
};

struct PriceRates {
  InstallRates install;
  std::int64_t labour_price_minor_per_h = 8500;
  std::int64_t trip_price_minor = 0;
  std::int64_t trip_cost_minor = 0;
  std::int64_t sundries_cost_minor = 0;
  double crew_size = 2;
  std::optional<double> trips;
  double trip_h = 0.75;
  double work_day_h = 8;
  double night_visit_h = 1.5;
  double night_visit_people = 2;
  double commissioning_min_per_lamp = 2.5;
  double commissioning_min_per_output = 15;
  double material_markup_pct = 60;
  double overhead_pct = 0;
  std::optional<double> margin_floor_pct;
  double contingency_pct = 0;
  std::string contingency_reason;  // "clay"
  double tax_pct = 0;
  job::TaxBase tax_on = job::TaxBase::whole_price;
  std::string tax_name = "Tax";
  std::vector<Assumption> assumptions;
};

[[nodiscard]] PriceRates price_rates(const job::Job& job);

}  // namespace duskwire::estimate
