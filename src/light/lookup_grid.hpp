// SPDX-License-Identifier: Apache-2.0
// A distribution made ready for quick reading: type C, angles at even steps, single precision.
//
// A type C table whose angles are multiples of one of the usual steps keeps exactly its own interpolation. Other
// tables, and those of types A and B, are read anew at steps fine enough; lookup_grid_test states the error.
#pragma once

#include <vector>

#include "light/distribution.hpp"

namespace duskwire::light {

struct LookupGrid {
  float first_gamma_deg = 0;  // dark below and above the two
  float last_gamma_deg = 0;
  float gammas_per_deg = 1;
  float planes_per_deg = 0;  // 0: the same all round
  int gammas = 0;
  int planes = 0;
  std::vector<float> intensity_cd;  // [plane][gamma], and one entry more at the end, so that reading a pair is safe
  std::vector<float> most_cd;       // by whole degree of gamma: the most in [i, i + 1] over all C
};

[[nodiscard]] LookupGrid lookup_grid(const Distribution& distribution);

// By angles as angles_from_way gives them for type C. The hot loop does the same, many at a time.
[[nodiscard]] float intensity_cd(const LookupGrid& grid, float c_deg, float gamma_deg);

// The most that the grid sends between two gammas, in any C.
[[nodiscard]] float most_cd_between(const LookupGrid& grid, float from_deg, float to_deg);

}  // namespace duskwire::light
