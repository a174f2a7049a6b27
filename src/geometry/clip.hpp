// SPDX-License-Identifier: Apache-2.0
// Pieces cut out of an outline by straight cuts.
#pragma once

#include "geometry/point.hpp"

namespace duskwire::geometry {

// The part of the outline on which (point - from) . way >= 0. Of a concave outline pieces may hang together by a line.
[[nodiscard]] Polygon clipped(const Polygon& outline, Point2 from, Point2 way);

// The least and the greatest of point . way over the outline's points.
struct Extent {
  double low = 0;
  double high = 0;
};
[[nodiscard]] Extent extent_along(const Polygon& outline, Point2 way);

}  // namespace duskwire::geometry
