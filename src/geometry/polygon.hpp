// SPDX-License-Identifier: Apache-2.0
// Questions that a plan asks of its outlines: inside or not, how far away, where a route crosses. Outlines may be
// concave and run either way round; one of fewer than three points encloses nothing.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "geometry/point.hpp"

namespace duskwire::geometry {

// Even-odd rule. A point on the outline may count either way.
[[nodiscard]] bool contains(const Polygon& outline, Point2 point);

[[nodiscard]] double area_m2(const Polygon& outline);

[[nodiscard]] Point2 nearest_on_segment(Point2 point, Point2 from, Point2 to);
[[nodiscard]] double distance_to_segment_m(Point2 point, Point2 from, Point2 to);

// The nearest place on an outline, with the edge that it lies on: edge i leads from point i to the next.
struct OutlinePlace {
  Point2 place;
  std::size_t edge = 0;
  double away_m = 0;
};
// Nothing for an empty outline.
[[nodiscard]] std::optional<OutlinePlace> nearest_on_outline(const Polygon& outline, Point2 point);

// The unit way square to edge i that leads out of the outline, whichever way round it runs.
[[nodiscard]] Point2 outward(const Polygon& outline, std::size_t edge);

// The middle of the area; of the points where it has no area.
[[nodiscard]] Point2 middle(const Polygon& outline);

// 0 inside; infinite for an empty outline.
[[nodiscard]] double distance_m(const Polygon& outline, Point2 point);

// The least distance of any point of the route; 0 where it enters. Infinite for an empty route or outline.
[[nodiscard]] double distance_m(const Polygon& outline, const Polyline& route);

// Where the straight piece from -> to crosses the outline, as shares of its length, unsorted, each in [0, 1].
[[nodiscard]] std::vector<double> crossings(const Polygon& outline, Point2 from, Point2 to);

}  // namespace duskwire::geometry
