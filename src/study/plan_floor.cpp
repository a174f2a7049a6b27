// SPDX-License-Identifier: Apache-2.0
#include "study/plan_floor.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "study/lit_scene.hpp"
#include "study/step_flight.hpp"

namespace duskwire::study {
namespace {

using geometry::Point2;

class Reach {
 public:
  void add(Point2 point) {
    if (!std::isfinite(point.x_m) || !std::isfinite(point.y_m)) return;
    low_ = {std::min(low_.x_m, point.x_m), std::min(low_.y_m, point.y_m)};
    high_ = {std::max(high_.x_m, point.x_m), std::max(high_.y_m, point.y_m)};
  }
  [[nodiscard]] bool empty() const { return low_.x_m > high_.x_m; }
  [[nodiscard]] PlanReach found() const {
    return {low_, {std::min(high_.x_m, low_.x_m + farthest_m), std::min(high_.y_m, low_.y_m + farthest_m)}};
  }

 private:
  Point2 low_{std::numeric_limits<double>::infinity(), std::numeric_limits<double>::infinity()};
  Point2 high_{-std::numeric_limits<double>::infinity(), -std::numeric_limits<double>::infinity()};
};

}  // namespace

PlanFloor::PlanFloor(const job::Plan& plan) {
  for (const job::Area& area : plan.areas) {
    const double height_m = solid_height_m(area);
    if (height_m <= 0) continue;
    const bool upright = area.kind == job::GroundKind::building || area.kind == job::GroundKind::wall;
    if (area.kind != job::GroundKind::steps) {
      solids_.push_back({area.outline, height_m, upright});
      continue;
    }
    for (const Tread& tread : step_flight(plan, area).treads) solids_.push_back({tread.outline, tread.height_m, false});
  }
}

std::optional<double> PlanFloor::level_m(Point2 place) const {
  double level_m = 0;
  for (const Solid& solid : solids_) {
    if (!contains(solid.outline, place)) continue;
    if (solid.upright) return std::nullopt;
    level_m = std::max(level_m, solid.height_m);
  }
  return level_m;
}

std::optional<PlanReach> plan_reach(const job::Job& job) {
  Reach reach;
  for (const Point2 point : job.plan.property_line) reach.add(point);
  if (reach.empty()) {
    for (const job::Area& area : job.plan.areas) {
      for (const Point2 point : area.outline) reach.add(point);
    }
  }
  for (const job::Luminaire& lamp : job.luminaires) {
    if (lamp.position) reach.add({lamp.position->x_m, lamp.position->y_m});
  }
  if (reach.empty()) return std::nullopt;
  return reach.found();
}

}  // namespace duskwire::study
