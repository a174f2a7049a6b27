// SPDX-License-Identifier: Apache-2.0
#include "estimate/ground_stretches.hpp"

#include <algorithm>

#include "geometry/polygon.hpp"

namespace duskwire::estimate {
namespace {

using geometry::Point2;

constexpr double no_length_m = 1e-9;

Point2 between(Point2 p, Point2 q, double share) {
  return {p.x_m + share * (q.x_m - p.x_m), p.y_m + share * (q.y_m - p.y_m)};
}

std::optional<job::GroundKind> ground_at(const job::Plan& plan, Point2 p) {
  for (auto area = plan.areas.rbegin(); area != plan.areas.rend(); ++area) {
    if (geometry::contains(area->outline, p)) return area->kind;
  }
  return std::nullopt;
}

void append(std::vector<GroundStretch>& stretches, GroundStretch stretch) {
  if (!(stretch.length_m > no_length_m)) return;
  if (!stretches.empty() && stretches.back().ground == stretch.ground) {
    stretches.back().length_m += stretch.length_m;
  } else {
    stretches.push_back(stretch);
  }
}

}  // namespace

std::vector<GroundStretch> ground_stretches(const job::Plan& plan, const job::Cable& cable, double route_m) {
  std::vector<GroundStretch> stretches;
  double path_m = 0;
  for (std::size_t i = 1; i < cable.path.size(); ++i) {
    const Point2 p = cable.path[i - 1];
    const Point2 q = cable.path[i];
    const double side_m = geometry::distance_m(p, q);
    std::vector<double> shares{0, 1};
    for (const job::Area& area : plan.areas) {
      const std::vector<double> crossed = geometry::crossings(area.outline, p, q);
      shares.insert(shares.end(), crossed.begin(), crossed.end());
    }
    std::sort(shares.begin(), shares.end());
    for (std::size_t k = 1; k < shares.size(); ++k) {
      const auto planned = ground_at(plan, between(p, q, (shares[k - 1] + shares[k]) / 2));
      append(stretches, {planned ? planned : cable.ground, (shares[k] - shares[k - 1]) * side_m});
    }
    path_m += side_m;
  }
  if (!(path_m > no_length_m)) {
    stretches.clear();
    append(stretches, {cable.ground, route_m});
    return stretches;
  }
  for (GroundStretch& stretch : stretches) stretch.length_m *= route_m / path_m;
  return stretches;
}

bool is_hard(job::GroundKind ground) {
  return ground == job::GroundKind::paving || ground == job::GroundKind::drive || ground == job::GroundKind::street;
}

}  // namespace duskwire::estimate
