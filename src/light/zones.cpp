// SPDX-License-Identifier: Apache-2.0
#include "light/zones.hpp"

#include <cmath>
#include <numbers>

#include "base/units.hpp"
#include "light/angle_weights.hpp"

namespace duskwire::light {

Distribution as_type_c(const Distribution& d, double step_deg) {
  if (d.type == PhotometricType::c) return d;
  Distribution turned;
  const auto rows = static_cast<std::size_t>(std::lround(180 / step_deg));
  for (std::size_t v = 0; v <= rows; ++v) turned.vertical_deg.push_back(180 * static_cast<double>(v) / rows);
  for (std::size_t h = 0; h <= 2 * rows; ++h) turned.horizontal_deg.push_back(180 * static_cast<double>(h) / rows);
  for (const double c_deg : turned.horizontal_deg) {
    for (const double gamma_deg : turned.vertical_deg) {
      turned.intensity_cd.push_back(direction_cd(d, way_from_angles(PhotometricType::c, {c_deg, gamma_deg})));
    }
  }
  return turned;
}

double zone_flux_lm(const Distribution& d, const Zone& zone) {
  const std::vector<double> vertical =
      angle_weights(d.vertical_deg, AngleMeasure::sine, zone.gamma_from_deg, zone.gamma_to_deg);
  std::vector<double> horizontal = angle_weights(d.horizontal_deg, AngleMeasure::plain, zone.c_from_deg, zone.c_to_deg);
  if (d.horizontal_deg.size() > 1) {
    const std::vector<double> beyond =
        angle_weights(d.horizontal_deg, AngleMeasure::plain, zone.c_from_deg - 360, zone.c_to_deg - 360);
    for (std::size_t h = 0; h < horizontal.size(); ++h) horizontal[h] += beyond[h];
  }
  double flux_lm = 0;
  for (std::size_t h = 0; h < horizontal.size(); ++h) {
    for (std::size_t v = 0; v < vertical.size(); ++v) {
      flux_lm += horizontal[h] * vertical[v] * d.intensity_cd[h * vertical.size() + v];
    }
  }
  return flux_lm;
}

double zonal_constant_sr(double gamma_from_deg, double gamma_to_deg) {
  return 2 * std::numbers::pi *
         (std::cos(gamma_from_deg * units::rad_per_deg) - std::cos(gamma_to_deg * units::rad_per_deg));
}

}  // namespace duskwire::light
