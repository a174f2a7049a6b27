// SPDX-License-Identifier: Apache-2.0
// The hours of a job by kind of work: the minutes of the list of materials, the trench by its ground, commissioning,
// the night visit, the road, and a share for the unknown. Estimates from the plan; the soil decides.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "estimate/materials.hpp"
#include "estimate/price_rates.hpp"
#include "job/job.hpp"

namespace duskwire::estimate {

enum class WorkKind : std::uint8_t {
  fixtures = 0,
  transformers = 1,
  cable = 2,
  splices = 3,
  small_goods = 4,
  trench = 5,
  commissioning = 6,
  night_visit = 7,
  travel = 8,
  contingency = 9,
};

struct Work {
  std::string id;  // stable from one price of a job to the next: "trench/lawn"
  WorkKind kind = WorkKind::fixtures;
  std::string text;
  double minutes = 0;  // of one person
  std::string reason;
};

struct Labour {
  std::vector<Work> work;  // without those that take no time
  double trips = 0;
  double minutes = 0;  // sum
};

// `list` is the job's own list of materials; `sleeves_to_lay` those of the plan that it buys.
[[nodiscard]] Labour labour(const job::Job& job, const Materials& list, const PriceRates& rates,
                            const std::vector<std::string>& sleeves_to_lay);

}  // namespace duskwire::estimate
