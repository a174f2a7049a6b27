// SPDX-License-Identifier: Apache-2.0
// A walk is drawn as an outline; what counts of it is where its middle runs and how wide it is.
#pragma once

#include <optional>

#include "geometry/point.hpp"

namespace duskwire::geometry {

// A long and narrow outline: two sides between two short ends. Sides and centreline run the same way, away from the end
// at which the outline begins, and have as many points each, taken at even shares of both sides.
struct Strip {
  Polyline centreline;
  Polyline left;  // seen along the centreline
  Polyline right;
  double length_m = 0;
  double width_m = 0;  // mean
};

// The ends are edges at which the outline turns about; of several those with the longest sides between them. Nothing
// where the outline is not at least `least_slenderness` times as long as wide, or has more corners than a walk has.
[[nodiscard]] std::optional<Strip> strip_of(const Polygon& outline, double least_slenderness = 2.5);

[[nodiscard]] double length_m(const Polyline& line);

// The place so far along the line, and the unit way of the line there. Held to its ends.
struct LinePlace {
  Point2 place;
  Point2 way;
};
[[nodiscard]] LinePlace place_along(const Polyline& line, double along_m);

}  // namespace duskwire::geometry
