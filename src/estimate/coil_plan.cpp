// SPDX-License-Identifier: Apache-2.0
#include "estimate/coil_plan.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace duskwire::estimate {
namespace {

// Sums of lengths that should be equal may differ by rounding; a nanometre is no cable.
constexpr double rounding_m = 1e-9;

std::vector<double> usable_sizes(std::vector<double> sizes_m) {
  std::erase_if(sizes_m, [](double size_m) { return !std::isfinite(size_m) || size_m <= 0; });
  std::sort(sizes_m.begin(), sizes_m.end());
  sizes_m.erase(std::unique(sizes_m.begin(), sizes_m.end()), sizes_m.end());
  return sizes_m;
}

// Sizes ascending; there is one that is long enough.
double smallest_holding(const std::vector<double>& sizes_m, double length_m) {
  return *std::lower_bound(sizes_m.begin(), sizes_m.end(), length_m - rounding_m);
}

std::vector<Coil> first_fit(const std::vector<double>& cuts_m, const std::vector<std::size_t>& longest_first,
                            const std::vector<double>& sizes_m, double opening_m) {
  std::vector<Coil> coils;
  for (const std::size_t cut : longest_first) {
    const double length_m = cuts_m[cut];
    auto coil = std::find_if(coils.begin(), coils.end(), [&](const Coil& candidate) {
      return candidate.used_m + length_m <= candidate.length_m + rounding_m;
    });
    if (coil == coils.end()) {
      coils.push_back({std::max(opening_m, smallest_holding(sizes_m, length_m)), 0, {}});
      coil = coils.end() - 1;
    }
    coil->used_m += length_m;
    coil->cuts.push_back(cut);
  }
  for (Coil& coil : coils) coil.length_m = smallest_holding(sizes_m, coil.used_m);
  return coils;
}

double bought_m(const std::vector<Coil>& coils) {
  return std::accumulate(coils.begin(), coils.end(), 0.0,
                         [](double sum_m, const Coil& coil) { return sum_m + coil.length_m; });
}

}  // namespace

CoilPlan plan_coils(const std::vector<double>& cuts_m, std::vector<double> sizes_m) {
  sizes_m = usable_sizes(std::move(sizes_m));
  CoilPlan plan;
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < cuts_m.size(); ++i) {
    const bool fits = !sizes_m.empty() && cuts_m[i] <= sizes_m.back() + rounding_m;
    (fits ? order : plan.too_long).push_back(i);
  }
  std::stable_sort(order.begin(), order.end(), [&](std::size_t i, std::size_t j) { return cuts_m[i] > cuts_m[j]; });
  double least_m = std::numeric_limits<double>::infinity();
  for (const double opening_m : sizes_m) {
    std::vector<Coil> coils = first_fit(cuts_m, order, sizes_m, opening_m);
    const double length_m = bought_m(coils);
    const bool shorter = length_m < least_m - rounding_m;
    const bool fewer = length_m <= least_m + rounding_m && coils.size() < plan.coils.size();
    if (!shorter && !fewer) continue;
    least_m = length_m;
    plan.coils = std::move(coils);
  }
  return plan;
}

}  // namespace duskwire::estimate
