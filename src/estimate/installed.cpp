// SPDX-License-Identifier: Apache-2.0
#include "estimate/installed.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "estimate/materials.hpp"
#include "estimate/trench.hpp"

namespace duskwire::estimate {
namespace {

constexpr std::int64_t most_minor = std::numeric_limits<std::int64_t>::max();

std::int64_t labour_cost_minor(double minutes, std::int64_t minor_per_h) {
  const double cost_minor = minutes / 60 * static_cast<double>(minor_per_h);
  if (!(cost_minor < static_cast<double>(most_minor))) return most_minor;
  return std::llround(std::max(0.0, cost_minor));
}

// At the end of the numbers rather than round the corner.
std::int64_t sum_minor(std::int64_t p, std::int64_t q) {
  std::int64_t sum = 0;
  return __builtin_add_overflow(p, q, &sum) ? most_minor : sum;
}

// Sleeves that lie there already are not bought.
MaterialsOptions without_laid_sleeves(const job::Plan& plan, const std::vector<std::string>& sleeves_to_lay) {
  MaterialsOptions options;
  for (const job::Sleeve& sleeve : plan.sleeves) {
    const bool to_lay = std::find(sleeves_to_lay.begin(), sleeves_to_lay.end(), sleeve.id) != sleeves_to_lay.end();
    if (!to_lay) options.laid_sleeves.push_back(sleeve.id);
  }
  return options;
}

}  // namespace

InstalledCost installed_cost(const job::Job& job, const job::Catalogue& stock, const InstallRates& rates,
                             const std::vector<std::string>& sleeves_to_lay) {
  const Materials list = materials(job, stock, without_laid_sleeves(job.plan, sleeves_to_lay));
  const TrenchWork trench = trench_work(job, rates, sleeves_to_lay);
  InstalledCost cost;
  cost.material_minor = list.price_minor;
  cost.trench_min = trench.minutes;
  cost.trench_m = trench.dug_m;
  cost.labour_min = list.labour_min + trench.minutes;
  cost.cost_minor = sum_minor(cost.material_minor, labour_cost_minor(cost.labour_min, rates.labour_minor_per_h));
  for (const CableTotal& total : list.cables) cost.cable_m += total.cut_m;
  cost.cable_types = static_cast<std::uint32_t>(list.cables.size());
  cost.joints = static_cast<std::uint32_t>(std::count_if(list.splices.begin(), list.splices.end(),
                                                         [](const Splice& splice) { return splice.kind.has_value(); }));
  return cost;
}

}  // namespace duskwire::estimate
