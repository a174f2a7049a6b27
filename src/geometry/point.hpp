// SPDX-License-Identifier: Apache-2.0
// Points of the site frame: x east, y north, z up, metres, from an origin that the job chooses.
#pragma once

#include <cmath>
#include <vector>

namespace duskwire::geometry {

struct Point2 {
  double x_m = 0;
  double y_m = 0;

  bool operator==(const Point2&) const = default;
};

struct Point3 {
  double x_m = 0;
  double y_m = 0;
  double z_m = 0;

  bool operator==(const Point3&) const = default;
};

using Polyline = std::vector<Point2>;
// Closed, first point not repeated.
using Polygon = std::vector<Point2>;

[[nodiscard]] inline double distance_m(Point2 p, Point2 q) { return std::hypot(q.x_m - p.x_m, q.y_m - p.y_m); }

}  // namespace duskwire::geometry
