// SPDX-License-Identifier: Apache-2.0
// What the plan says of the ground: the kind at a point, and in order along a route. Where areas overlap the smaller
// one counts (a bed let into a patio, a drive across the lawn), but a root zone or a forbidden zone only where nothing
// else lies.
#pragma once

#include <optional>
#include <vector>

#include "geometry/point.hpp"
#include "job/plan.hpp"

namespace duskwire::job {

struct GroundStretch {
  std::optional<GroundKind> kind;  // empty: outside every area
  double length_m = 0;
};

class PlanGround {
 public:
  explicit PlanGround(const Plan& plan);  // the plan outlives this
  [[nodiscard]] std::optional<GroundKind> at(geometry::Point2 point) const;
  // Neighbours of one kind are one stretch; those of no length are left out.
  [[nodiscard]] std::vector<GroundStretch> along(const geometry::Polyline& route) const;

 private:
  std::vector<const Area*> areas_;  // in the order in which they count
};

// Appends, joined to the last one where the kind is the same.
void append(std::vector<GroundStretch>& stretches, GroundStretch stretch);

}  // namespace duskwire::job
