// SPDX-License-Identifier: Apache-2.0
// A flight of steps, tread by tread, from the outline of an area of steps: each riser has its tread behind it, the top
// tread is level with the landing. What the plan leaves open is taken from what adjoins, and `assumed` says so.
#pragma once

#include <vector>

#include "geometry/point.hpp"
#include "job/plan.hpp"

namespace duskwire::study {

struct Tread {
  geometry::Polygon outline;
  double height_m = 0;      // over grade
  geometry::Point2 nosing;  // middle of its lower edge, where its riser stands
};

struct StepFlight {
  geometry::Point2 up;        // unit way of the ascent
  std::vector<Tread> treads;  // lowest first
  bool assumed = false;       // ascent or number of risers were not in the job

  // Of the tread under a place; 0 beside the flight.
  [[nodiscard]] double height_at_m(geometry::Point2 place) const;
};

[[nodiscard]] StepFlight step_flight(const job::Plan& plan, const job::Area& area);

}  // namespace duskwire::study
