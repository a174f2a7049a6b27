// SPDX-License-Identifier: Apache-2.0
#include "geometry/clip.hpp"

#include <algorithm>

namespace duskwire::geometry {
namespace {

double along(Point2 point, Point2 way) { return point.x_m * way.x_m + point.y_m * way.y_m; }

}  // namespace

// Sutherland and Hodgman's clipping by one half plane.
Polygon clipped(const Polygon& outline, Point2 from, Point2 way) {
  const double edge = along(from, way);
  Polygon out;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Point2 p = outline[i];
    const Point2 q = outline[(i + 1) % outline.size()];
    const double p_in = along(p, way) - edge;
    const double q_in = along(q, way) - edge;
    if (p_in >= 0) out.push_back(p);
    if ((p_in < 0) == (q_in < 0)) continue;
    const double share = p_in / (p_in - q_in);
    out.push_back({p.x_m + share * (q.x_m - p.x_m), p.y_m + share * (q.y_m - p.y_m)});
  }
  return out;
}

Extent extent_along(const Polygon& outline, Point2 way) {
  if (outline.empty()) return {};
  Extent extent{along(outline[0], way), along(outline[0], way)};
  for (const Point2 point : outline) {
    extent.low = std::min(extent.low, along(point, way));
    extent.high = std::max(extent.high, along(point, way));
  }
  return extent;
}

}  // namespace duskwire::geometry
