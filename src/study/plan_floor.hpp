// SPDX-License-Identifier: Apache-2.0
// The surface that light on the ground falls on, place by place: grade, a deck, a tread; and how far a plan reaches.
// Internal to the room.
#pragma once

#include <optional>
#include <vector>

#include "geometry/polygon.hpp"
#include "job/job.hpp"

namespace duskwire::study {

// Treads are worked out once.
class PlanFloor {
 public:
  explicit PlanFloor(const job::Plan& plan);

  // Nothing in a building or a wall.
  [[nodiscard]] std::optional<double> level_m(geometry::Point2 place) const;

 private:
  struct Solid {
    geometry::Polygon outline;
    double height_m = 0;
    bool upright = false;
  };
  std::vector<Solid> solids_;
};

struct PlanReach {
  geometry::Point2 low;
  geometry::Point2 high;
};

// The lot, or where it has no line what is drawn; and every lamp in any case. Nothing where nothing has a place; a
// stray point does not blow it up beyond `farthest_m`.
[[nodiscard]] std::optional<PlanReach> plan_reach(const job::Job& job);
inline constexpr double farthest_m = 500;

}  // namespace duskwire::study
