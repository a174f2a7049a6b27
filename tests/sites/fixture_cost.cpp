// SPDX-License-Identifier: Apache-2.0
#include "sites/fixture_cost.hpp"

#include "estimate/materials.hpp"

namespace duskwire::sites {

double fixture_cost_minor(const job::Job& job, const job::Catalogue& stock, const estimate::InstallRates& rates) {
  const double minor_per_min = static_cast<double>(rates.labour_minor_per_h) / 60;
  double cost = 0;
  for (const estimate::MaterialLine& line : estimate::materials(job, stock).lines) {
    if (line.category != estimate::Category::luminaire && line.category != estimate::Category::mount) continue;
    cost += static_cast<double>(line.price_minor) + line.labour_min * minor_per_min;
  }
  return cost;
}

}  // namespace duskwire::sites
