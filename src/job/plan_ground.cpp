// SPDX-License-Identifier: Apache-2.0
#include "job/plan_ground.hpp"

#include <algorithm>

#include "geometry/polygon.hpp"

namespace duskwire::job {
namespace {

using geometry::Point2;

// Shorter than this is the rounding of a crossing, not a stretch of ground.
constexpr double no_length_m = 1e-9;

bool is_overlay(GroundKind kind) { return kind == GroundKind::root_zone || kind == GroundKind::forbidden; }

Point2 between(Point2 from, Point2 to, double share) {
  return {from.x_m + share * (to.x_m - from.x_m), from.y_m + share * (to.y_m - from.y_m)};
}

}  // namespace

void append(std::vector<GroundStretch>& stretches, GroundStretch stretch) {
  if (!(stretch.length_m > no_length_m)) return;
  if (!stretches.empty() && stretches.back().kind == stretch.kind) {
    stretches.back().length_m += stretch.length_m;
  } else {
    stretches.push_back(stretch);
  }
}

PlanGround::PlanGround(const Plan& plan) {
  for (const Area& area : plan.areas) areas_.push_back(&area);
  std::stable_sort(areas_.begin(), areas_.end(), [](const Area* p, const Area* q) {
    if (is_overlay(p->kind) != is_overlay(q->kind)) return is_overlay(q->kind);
    return geometry::area_m2(p->outline) < geometry::area_m2(q->outline);
  });
}

std::optional<GroundKind> PlanGround::at(Point2 point) const {
  for (const Area* area : areas_) {
    if (geometry::contains(area->outline, point)) return area->kind;
  }
  return std::nullopt;
}

std::vector<GroundStretch> PlanGround::along(const geometry::Polyline& route) const {
  std::vector<GroundStretch> stretches;
  for (std::size_t i = 1; i < route.size(); ++i) {
    const Point2 from = route[i - 1];
    const Point2 to = route[i];
    std::vector<double> shares{0, 1};
    for (const Area* area : areas_) {
      const std::vector<double> met = geometry::crossings(area->outline, from, to);
      shares.insert(shares.end(), met.begin(), met.end());
    }
    std::sort(shares.begin(), shares.end());
    const double piece_m = geometry::distance_m(from, to);
    for (std::size_t k = 1; k < shares.size(); ++k) {
      const auto kind = at(between(from, to, (shares[k - 1] + shares[k]) / 2));
      append(stretches, {kind, (shares[k] - shares[k - 1]) * piece_m});
    }
  }
  return stretches;
}

}  // namespace duskwire::job
