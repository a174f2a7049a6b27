// SPDX-License-Identifier: Apache-2.0
#include "sites/even_ground.hpp"

#include <algorithm>
#include <set>

#include "geometry/polygon.hpp"

namespace duskwire::sites {

using geometry::distance_m;
using geometry::Point2;

std::vector<Stretch> stretches_between(Point2 from, Point2 to, const std::vector<Point2>& points) {
  std::vector<std::pair<double, std::uint32_t>> met;
  for (std::uint32_t p = 0; p < points.size(); ++p) {
    if (geometry::distance_to_segment_m(points[p], from, to) > same_place_m) continue;
    met.emplace_back(distance_m(from, points[p]), p);
  }
  std::sort(met.begin(), met.end());
  std::vector<Stretch> stretches;
  for (std::size_t i = 1; i < met.size(); ++i) stretches.push_back(std::minmax(met[i - 1].second, met[i].second));
  return stretches;
}

double dug_once_m(const std::vector<geometry::Polyline>& ways) {
  std::vector<Point2> points;
  for (const auto& way : ways) {
    for (const Point2 bend : way) {
      const bool is_known = std::any_of(points.begin(), points.end(),
                                        [&](Point2 point) { return distance_m(point, bend) <= same_place_m; });
      if (!is_known) points.push_back(bend);
    }
  }
  std::set<Stretch> dug;
  for (const auto& way : ways) {
    for (std::size_t i = 1; i < way.size(); ++i) {
      for (const Stretch& stretch : stretches_between(way[i - 1], way[i], points)) dug.insert(stretch);
    }
  }
  double sum_m = 0;
  for (const auto& [a, b] : dug) sum_m += distance_m(points[a], points[b]);
  return sum_m;
}

}  // namespace duskwire::sites
