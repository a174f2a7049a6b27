// SPDX-License-Identifier: Apache-2.0
#include "wiring/exact_hubs.hpp"

#include <algorithm>
#include <utility>

namespace duskwire::wiring {
namespace {

using geometry::distance_m;
using geometry::Point2;

// The point whose distances to three others sum up to the least (Weiszfeld's iteration).
Point2 meeting_point(Point2 a, Point2 b, Point2 c) {
  Point2 at{(a.x_m + b.x_m + c.x_m) / 3, (a.y_m + b.y_m + c.y_m) / 3};
  for (int step = 0; step < 300; ++step) {
    double weights = 0;
    Point2 sum;
    for (const Point2 p : {a, b, c}) {
      const double weight = 1 / std::max(1e-9, distance_m(at, p));
      weights += weight;
      sum = {sum.x_m + weight * p.x_m, sum.y_m + weight * p.y_m};
    }
    at = {sum.x_m / weights, sum.y_m / weights};
  }
  return at;
}

}  // namespace

std::vector<Point2> meeting_places(const std::vector<Point2>& points, std::size_t terminals, std::size_t most) {
  constexpr double worth_m = 0.3;
  constexpr double crowded_m = 0.8;
  std::vector<std::pair<double, Point2>> offers;
  for (std::size_t a = 0; a < terminals; ++a) {
    for (std::size_t b = a + 1; b < terminals; ++b) {
      for (std::size_t c = b + 1; c < terminals; ++c) {
        const Point2 hub = meeting_point(points[a], points[b], points[c]);
        const double ab_m = distance_m(points[a], points[b]);
        const double bc_m = distance_m(points[b], points[c]);
        const double ac_m = distance_m(points[a], points[c]);
        const double star_m = distance_m(hub, points[a]) + distance_m(hub, points[b]) + distance_m(hub, points[c]);
        const double two_m = ab_m + bc_m + ac_m - std::max({ab_m, bc_m, ac_m});
        if (two_m - star_m > worth_m) offers.emplace_back(star_m - two_m, hub);
      }
    }
  }
  std::sort(offers.begin(), offers.end(), [](const auto& p, const auto& q) { return p.first < q.first; });
  std::vector<Point2> places;
  for (const auto& offer : offers) {
    if (places.size() >= most) break;
    const auto crowds = [&](Point2 other) { return distance_m(other, offer.second) < crowded_m; };
    if (std::any_of(points.begin(), points.end(), crowds) || std::any_of(places.begin(), places.end(), crowds))
      continue;
    places.push_back(offer.second);
  }
  return places;
}

}  // namespace duskwire::wiring
