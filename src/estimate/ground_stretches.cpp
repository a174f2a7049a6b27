// SPDX-License-Identifier: Apache-2.0
#include "estimate/ground_stretches.hpp"

#include <algorithm>
#include <cmath>

namespace duskwire::estimate {
namespace {

using geometry::Point2;
using geometry::Polygon;

constexpr double parallel_below = 1e-12;  // cross product of two edges, m2: no crossing point to be had
constexpr double no_length_m = 1e-9;

// Even-odd rule.
bool contains(const Polygon& outline, Point2 p) {
  bool inside = false;
  for (std::size_t i = 0, j = outline.size() - 1; i < outline.size(); j = i++) {
    const Point2 a = outline[i];
    const Point2 b = outline[j];
    if ((a.y_m > p.y_m) == (b.y_m > p.y_m)) continue;
    if (p.x_m < a.x_m + (p.y_m - a.y_m) / (b.y_m - a.y_m) * (b.x_m - a.x_m)) inside = !inside;
  }
  return inside;
}

Point2 between(Point2 p, Point2 q, double share) {
  return {p.x_m + share * (q.x_m - p.x_m), p.y_m + share * (q.y_m - p.y_m)};
}

// Adds where p-q crosses an edge of the outline, as share of the way.
void add_crossings(const Polygon& outline, Point2 p, Point2 q, std::vector<double>& shares) {
  for (std::size_t i = 0, j = outline.size() - 1; i < outline.size(); j = i++) {
    const Point2 a = outline[j];
    const Point2 b = outline[i];
    const double ex_m = b.x_m - a.x_m;
    const double ey_m = b.y_m - a.y_m;
    const double cross_m2 = (q.x_m - p.x_m) * ey_m - (q.y_m - p.y_m) * ex_m;
    if (std::abs(cross_m2) < parallel_below) continue;
    const double along = ((a.x_m - p.x_m) * ey_m - (a.y_m - p.y_m) * ex_m) / cross_m2;
    const double on_edge = ((a.x_m - p.x_m) * (q.y_m - p.y_m) - (a.y_m - p.y_m) * (q.x_m - p.x_m)) / cross_m2;
    if (along > 0 && along < 1 && on_edge >= 0 && on_edge <= 1) shares.push_back(along);
  }
}

std::optional<job::GroundKind> ground_at(const job::Plan& plan, Point2 p) {
  for (auto area = plan.areas.rbegin(); area != plan.areas.rend(); ++area) {
    if (area->outline.size() >= 3 && contains(area->outline, p)) return area->kind;
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
      if (area.outline.size() >= 3) add_crossings(area.outline, p, q, shares);
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
