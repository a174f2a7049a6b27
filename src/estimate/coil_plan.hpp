// SPDX-License-Identifier: Apache-2.0
// Which cuts come from which coil, where cable is sold in fixed lengths: first fit decreasing, tried once for each size
// as the one to open, each coil then exchanged for the smallest size that still holds its cuts. For one size the count
// is at most 11/9 of the least possible plus 6/9 (tight bound: ESCAPE 2007, LNCS 4614, from memory).
#pragma once

#include <cstddef>
#include <vector>

namespace duskwire::estimate {

struct Coil {
  double length_m = 0;
  double used_m = 0;
  std::vector<std::size_t> cuts;  // indices into the lengths that were asked for, longest first
};

struct CoilPlan {
  std::vector<Coil> coils;
  std::vector<std::size_t> too_long;  // longer than the longest coil: cannot be cut in one piece
};

// Sizes that are not positive and finite are left out. The plan has the least bought length of those tried, then the
// fewest coils; the same input gives the same plan.
[[nodiscard]] CoilPlan plan_coils(const std::vector<double>& cuts_m, std::vector<double> sizes_m);

}  // namespace duskwire::estimate
