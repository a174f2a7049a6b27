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

double area_m2(const Polygon& outline) {
  if (outline.size() < 3) return 0;
  double twice_m2 = 0;
  for_each_edge(outline,
                [&](const Edge& edge) { twice_m2 += cross(minus(edge.from, outline[0]), minus(edge.to, outline[0])); });
  return std::abs(twice_m2) / 2;
}

double distance_to_segment_m(Point2 point, Point2 from, Point2 to) {
  const Point2 along = minus(to, from);
  const double square = along.x_m * along.x_m + along.y_m * along.y_m;
  if (square <= 0) return distance_m(point, from);
  const Point2 offset = minus(point, from);
  const double share = std::clamp((offset.x_m * along.x_m + offset.y_m * along.y_m) / square, 0.0, 1.0);
  return distance_m(point, Point2{from.x_m + share * along.x_m, from.y_m + share * along.y_m});
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
