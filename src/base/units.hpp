// SPDX-License-Identifier: Apache-2.0
// Exact factors between SI and the units of the trade, named A-per-B. Only the edges (input, output) use them: inside,
// every number is SI and says so in its name.
#pragma once

#include <cmath>
#include <numbers>

namespace duskwire::units {

// International foot and inch (exact since 1959: 1 yd = 0.9144 m).
inline constexpr double m_per_ft = 0.3048;
inline constexpr double m_per_in = 0.0254;
inline constexpr double mm_per_in = 25.4;
// One foot-candle is one lumen per square foot.
inline constexpr double lx_per_fc = 1.0 / (m_per_ft * m_per_ft);
// A circular mil is the area of a circle of one thousandth of an inch diameter.
inline constexpr double mm2_per_cmil = std::numbers::pi / 4.0 * (mm_per_in / 1000.0) * (mm_per_in / 1000.0);
inline constexpr double rad_per_deg = std::numbers::pi / 180.0;

// Diameter of a solid AWG conductor. ASTM B258: No. 36 is 0.005 in, 4/0 is 0.46 in, 39 equal ratios between.
// gauge: 36 ... 0, and -1, -2, -3 for 2/0, 3/0, 4/0.
[[nodiscard]] inline double diameter_mm_from_awg(double gauge) {
  return 0.005 * mm_per_in * std::pow(92.0, (36.0 - gauge) / 39.0);
}
[[nodiscard]] inline double area_mm2_from_awg(double gauge) {
  const double diameter_mm = diameter_mm_from_awg(gauge);
  return std::numbers::pi / 4.0 * diameter_mm * diameter_mm;
}

}  // namespace duskwire::units
