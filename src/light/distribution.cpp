// SPDX-License-Identifier: Apache-2.0
// Reading a table of intensities by angle and by way, and its flux.
#include "light/distribution.hpp"

#include <algorithm>
#include <cmath>
#include <span>

#include "base/units.hpp"
#include "light/angle_weights.hpp"

namespace duskwire::light {
namespace {

using geometry::Vec3;

// An angle between two entries: the lower one and how far on from it.
struct Spot {
  std::size_t index = 0;
  double share = 0;
  bool inside = false;
};

Spot find_spot(std::span<const double> angles_deg, double angle_deg) {
  if (angles_deg.size() == 1) return {0, 0, angle_deg == angles_deg[0]};
  if (!(angle_deg >= angles_deg.front() && angle_deg <= angles_deg.back())) return {};
  const auto above = std::upper_bound(angles_deg.begin() + 1, angles_deg.end() - 1, angle_deg);
  const auto index = static_cast<std::size_t>(above - angles_deg.begin()) - 1;
  return {index, (angle_deg - angles_deg[index]) / (angles_deg[index + 1] - angles_deg[index]), true};
}

double along_vertical(const Distribution& d, std::size_t plane, const Spot& vertical) {
  const double* entries = d.intensity_cd.data() + plane * d.vertical_deg.size() + vertical.index;
  return vertical.share == 0 ? entries[0] : entries[0] + vertical.share * (entries[1] - entries[0]);
}

double degrees(double radians) { return radians / units::rad_per_deg; }

double turn_deg(double y, double x) { return x == 0 && y == 0 ? 0 : degrees(std::atan2(y, x)); }

}  // namespace

PhotometricAngles angles_from_way(PhotometricType type, Vec3 way) {
  switch (type) {
    case PhotometricType::c: {
      const double turn = turn_deg(way.y, way.x);
      return {turn < 0 ? turn + 360 : turn, degrees(std::atan2(std::hypot(way.x, way.y), -way.z))};
    }
    case PhotometricType::b:
      return {degrees(std::atan2(way.y, std::hypot(way.x, way.z))), turn_deg(way.x, -way.z)};
    case PhotometricType::a:
      return {turn_deg(way.y, -way.z), degrees(std::atan2(way.x, std::hypot(way.y, way.z)))};
  }
  return {};
}

Vec3 way_from_angles(PhotometricType type, PhotometricAngles angles) {
  const double h = angles.horizontal_deg * units::rad_per_deg;
  const double v = angles.vertical_deg * units::rad_per_deg;
  switch (type) {
    case PhotometricType::c:
      return {std::sin(v) * std::cos(h), std::sin(v) * std::sin(h), -std::cos(v)};
    case PhotometricType::b:
      return {std::cos(h) * std::sin(v), std::sin(h), -std::cos(h) * std::cos(v)};
    case PhotometricType::a:
      return {std::sin(v), std::cos(v) * std::sin(h), -std::cos(v) * std::cos(h)};
  }
  return {};
}

double intensity_cd(const Distribution& d, double horizontal_deg, double vertical_deg) {
  const Spot vertical = find_spot(d.vertical_deg, vertical_deg);
  if (!vertical.inside) return 0;
  if (d.type == PhotometricType::c) {
    if (d.horizontal_deg.size() == 1) return along_vertical(d, 0, vertical);
    horizontal_deg -= 360 * std::floor(horizontal_deg / 360);
  }
  const Spot horizontal = find_spot(d.horizontal_deg, horizontal_deg);
  if (!horizontal.inside) return 0;
  const double here_cd = along_vertical(d, horizontal.index, vertical);
  if (horizontal.share == 0) return here_cd;
  return here_cd + horizontal.share * (along_vertical(d, horizontal.index + 1, vertical) - here_cd);
}

double direction_cd(const Distribution& distribution, Vec3 way) {
  const PhotometricAngles angles = angles_from_way(distribution.type, way);
  return intensity_cd(distribution, angles.horizontal_deg, angles.vertical_deg);
}

double flux_lm(const Distribution& d) {
  const bool all_round = d.type == PhotometricType::c && d.horizontal_deg.size() == 1;
  const AngleMeasure h_measure = d.type == PhotometricType::b ? AngleMeasure::cosine : AngleMeasure::plain;
  const AngleMeasure v_measure = d.type == PhotometricType::c   ? AngleMeasure::sine
                                 : d.type == PhotometricType::a ? AngleMeasure::cosine
                                                                : AngleMeasure::plain;
  const std::vector<double> horizontal = angle_weights(d.horizontal_deg, h_measure, all_round ? 0 : -180, 360);
  const std::vector<double> vertical = angle_weights(d.vertical_deg, v_measure, -180, 180);
  double flux_lm = 0;
  for (std::size_t h = 0; h < horizontal.size(); ++h) {
    for (std::size_t v = 0; v < vertical.size(); ++v) {
      flux_lm += horizontal[h] * vertical[v] * d.intensity_cd[h * vertical.size() + v];
    }
  }
  return flux_lm;
}

}  // namespace duskwire::light
