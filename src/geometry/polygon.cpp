// SPDX-License-Identifier: Apache-2.0
#include "geometry/polygon.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace duskwire::geometry {
namespace {

struct Edge {
  Point2 from;
  Point2 to;
};

template <class Visit>
void for_each_edge(const Polygon& outline, Visit visit) {
  for (std::size_t i = 0; i < outline.size(); ++i) visit(Edge{outline[i], outline[(i + 1) % outline.size()]});
}

double cross(Point2 p, Point2 q) { return p.x_m * q.y_m - p.y_m * q.x_m; }

Point2 minus(Point2 p, Point2 q) { return {p.x_m - q.x_m, p.y_m - q.y_m}; }

// Positive where the outline runs counter-clockwise.
double twice_signed_area_m2(const Polygon& outline) {
  double twice_m2 = 0;
  for_each_edge(outline,
                [&](const Edge& edge) { twice_m2 += cross(minus(edge.from, outline[0]), minus(edge.to, outline[0])); });
  return twice_m2;
}

double distance_to_outline_m(const Polygon& outline, Point2 point) {
  double least_m = std::numeric_limits<double>::infinity();
  for_each_edge(outline, [&](const Edge& edge) {
    least_m = std::min(least_m, distance_to_segment_m(point, edge.from, edge.to));
  });
  return least_m;
}

}  // namespace

bool contains(const Polygon& outline, Point2 point) {
  if (outline.size() < 3) return false;
  bool inside = false;
  for_each_edge(outline, [&](const Edge& edge) {
    if ((edge.from.y_m > point.y_m) == (edge.to.y_m > point.y_m)) return;
    const double share = (point.y_m - edge.from.y_m) / (edge.to.y_m - edge.from.y_m);
    if (point.x_m < edge.from.x_m + share * (edge.to.x_m - edge.from.x_m)) inside = !inside;
  });
  return inside;
}

double area_m2(const Polygon& outline) { return outline.size() < 3 ? 0 : std::abs(twice_signed_area_m2(outline)) / 2; }

Point2 nearest_on_segment(Point2 point, Point2 from, Point2 to) {
  const Point2 along = minus(to, from);
  const double square = along.x_m * along.x_m + along.y_m * along.y_m;
  if (square <= 0) return from;
  const Point2 offset = minus(point, from);
  const double share = std::clamp((offset.x_m * along.x_m + offset.y_m * along.y_m) / square, 0.0, 1.0);
  return {from.x_m + share * along.x_m, from.y_m + share * along.y_m};
}

double distance_to_segment_m(Point2 point, Point2 from, Point2 to) {
  return distance_m(point, nearest_on_segment(point, from, to));
}

std::optional<OutlinePlace> nearest_on_outline(const Polygon& outline, Point2 point) {
  std::optional<OutlinePlace> best;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Point2 place = nearest_on_segment(point, outline[i], outline[(i + 1) % outline.size()]);
    const double away_m = distance_m(point, place);
    if (!best || away_m < best->away_m) best = {place, i, away_m};
  }
  return best;
}

Point2 outward(const Polygon& outline, std::size_t edge) {
  const Point2 along = minus(outline[(edge + 1) % outline.size()], outline[edge]);
  const double size_m = std::hypot(along.x_m, along.y_m);
  if (size_m <= 0) return {0, 0};
  const double side = twice_signed_area_m2(outline) > 0 ? 1 / size_m : -1 / size_m;
  return {side * along.y_m, -side * along.x_m};
}

Point2 middle(const Polygon& outline) {
  Point2 weighed;
  Point2 mean;
  double weight = 0;
  for_each_edge(outline, [&](const Edge& edge) {
    const Point2 p = minus(edge.from, outline[0]);
    const Point2 q = minus(edge.to, outline[0]);
    const double twice_m2 = cross(p, q);
    weight += twice_m2;
    weighed = {weighed.x_m + twice_m2 * (p.x_m + q.x_m) / 3, weighed.y_m + twice_m2 * (p.y_m + q.y_m) / 3};
    mean = {mean.x_m + edge.from.x_m / double(outline.size()), mean.y_m + edge.from.y_m / double(outline.size())};
  });
  if (std::abs(weight) < 1e-9) return mean;
  return {outline[0].x_m + weighed.x_m / weight, outline[0].y_m + weighed.y_m / weight};
}

double distance_m(const Polygon& outline, Point2 point) {
  return contains(outline, point) ? 0 : distance_to_outline_m(outline, point);
}

double distance_m(const Polygon& outline, const Polyline& route) {
  double least_m = std::numeric_limits<double>::infinity();
  for (const Point2 point : route) least_m = std::min(least_m, distance_m(outline, point));
  for (std::size_t i = 1; i < route.size(); ++i) {
    if (!crossings(outline, route[i - 1], route[i]).empty()) return 0;
    for (const Point2 corner : outline) {
      least_m = std::min(least_m, distance_to_segment_m(corner, route[i - 1], route[i]));
    }
  }
  return least_m;
}

std::vector<double> crossings(const Polygon& outline, Point2 from, Point2 to) {
  std::vector<double> shares;
  const Point2 along = minus(to, from);
  for_each_edge(outline, [&](const Edge& edge) {
    const Point2 side = minus(edge.to, edge.from);
    const double turn = cross(along, side);
    if (turn == 0) return;  // parallel: its ends are found with the neighbouring sides
    const Point2 offset = minus(edge.from, from);
    const double on_route = cross(offset, side) / turn;
    const double on_side = cross(offset, along) / turn;
    if (on_route >= 0 && on_route <= 1 && on_side >= 0 && on_side <= 1) shares.push_back(on_route);
  });
  return shares;
}

}  // namespace duskwire::geometry
