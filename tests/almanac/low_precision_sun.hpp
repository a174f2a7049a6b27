// SPDX-License-Identifier: Apache-2.0
// A second way to the sun's place: the short equations of Meeus, "Astronomical Algorithms", 2nd ed. (1998), ch. 25,
// good to 0.01 degrees. Proved on his own example, then held against the long way of the room.
#pragma once

#include <cmath>
#include <numbers>

namespace duskwire::almanac::testing {

struct LowPrecisionSun {
  double true_longitude_deg = 0;
  double mean_anomaly_deg = 0;
  double eccentricity = 0;
  double radius_au = 0;
  double apparent_longitude_deg = 0;
  double right_ascension_deg = 0;
  double declination_deg = 0;
};

inline LowPrecisionSun low_precision_sun(double ephemeris_jd) {
  constexpr double rad = std::numbers::pi / 180;
  const auto turn = [](double degrees) { return degrees - 360 * std::floor(degrees / 360); };
  const double T = (ephemeris_jd - 2451545.0) / 36525;
  const double mean_longitude = 280.46646 + 36000.76983 * T + 0.0003032 * T * T;
  LowPrecisionSun sun;
  sun.mean_anomaly_deg = 357.52911 + 35999.05029 * T - 0.0001537 * T * T;
  sun.eccentricity = 0.016708634 - 0.000042037 * T - 0.0000001267 * T * T;
  const double M = rad * sun.mean_anomaly_deg;
  const double centre = (1.914602 - 0.004817 * T - 0.000014 * T * T) * std::sin(M) +
                        (0.019993 - 0.000101 * T) * std::sin(2 * M) + 0.000289 * std::sin(3 * M);
  sun.true_longitude_deg = turn(mean_longitude + centre);
  const double true_anomaly = M + rad * centre;
  sun.radius_au =
      1.000001018 * (1 - sun.eccentricity * sun.eccentricity) / (1 + sun.eccentricity * std::cos(true_anomaly));
  const double node = rad * (125.04 - 1934.136 * T);
  sun.apparent_longitude_deg = sun.true_longitude_deg - 0.00569 - 0.00478 * std::sin(node);
  const double eps = rad * (23.439291 - 0.0130042 * T + 0.00256 * std::cos(node));
  const double lambda = rad * sun.apparent_longitude_deg;
  sun.right_ascension_deg = turn(std::atan2(std::cos(eps) * std::sin(lambda), std::cos(lambda)) / rad);
  sun.declination_deg = std::asin(std::sin(eps) * std::sin(lambda)) / rad;
  return sun;
}

}  // namespace duskwire::almanac::testing
