// SPDX-License-Identifier: Apache-2.0
#include "diagnosis/chi_square.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace duskwire::diagnosis {

double chance_above(double value, int degrees) {
  if (degrees <= 0 || value <= 0) return 1;
  const double half = value / 2;
  const bool even = degrees % 2 == 0;
  double sum = even ? std::exp(-half) : std::erfc(std::sqrt(half));
  double term = even ? std::exp(-half) : std::exp(-half) * std::sqrt(half / std::numbers::pi) * 2;
  if (!even && degrees > 1) sum += term;
  for (int k = even ? 2 : 3; k + 2 <= degrees; k += 2) {
    term *= value / k;
    sum += term;
  }
  return std::min(1.0, sum);
}

}  // namespace duskwire::diagnosis
