// SPDX-License-Identifier: Apache-2.0
// Weights that turn the entries of an angle-wise table into integrals over angle or over the sphere, exact where the
// table is read linearly between its entries.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

namespace duskwire::light {

// What stands beside the interpolated value under the integral; angles in radians.
enum class AngleMeasure : std::uint8_t {
  plain = 0,   // 1: a turn about an axis
  sine = 1,    // sin t: gamma of type C
  cosine = 2,  // cos t: V of type A, H of type B
};

// One weight per entry of `angles_deg` (ascending): sum of weight * value = integral from..to of value(t) m(t) dt, t in
// radians. Nothing is counted outside of the table. A table with a single angle holds at every angle.
[[nodiscard]] std::vector<double> angle_weights(std::span<const double> angles_deg, AngleMeasure measure,
                                                double from_deg, double to_deg);

}  // namespace duskwire::light
