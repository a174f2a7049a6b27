// SPDX-License-Identifier: Apache-2.0
#include "study/route_ways.hpp"

#include <algorithm>
#include <cmath>

namespace duskwire::study {
namespace {

using geometry::Point2;
using geometry::Polyline;

constexpr double overhang_m = 0.2;  // of a sleeve beyond the paving, each side
constexpr double sleeve_mm = 40;
constexpr double sleeve_depth_m = 0.45;  // under paving: common practice, no source
constexpr double straight_m = 0.005;     // a point so near to the line through its neighbours is left out

double length_of(const Polyline& path) {
  double sum_m = 0;
  for (std::size_t i = 1; i < path.size(); ++i) sum_m += geometry::distance_m(path[i - 1], path[i]);
  return sum_m;
}

Point2 between(Point2 from, Point2 to, double share) {
  return {from.x_m + share * (to.x_m - from.x_m), from.y_m + share * (to.y_m - from.y_m)};
}

// Millimetres do: the file stays readable.
Point2 rounded(Point2 at) { return {std::round(at.x_m * 1000) / 1000, std::round(at.y_m * 1000) / 1000}; }

void append(Polyline& path, Point2 at) {
  at = rounded(at);
  if (!path.empty() && geometry::distance_m(path.back(), at) < straight_m) return;
  if (path.size() >= 2) {
    const Point2 p = path[path.size() - 2];
    const Point2 q = path.back();
    const double whole_m = geometry::distance_m(p, at);
    const double off = std::abs((at.x_m - p.x_m) * (q.y_m - p.y_m) - (at.y_m - p.y_m) * (q.x_m - p.x_m));
    const bool onward = geometry::distance_m(p, q) < whole_m && geometry::distance_m(q, at) < whole_m;
    if (whole_m > 0 && onward && off / whole_m < straight_m) path.pop_back();
  }
  path.push_back(at);
}

}  // namespace

std::string RouteWays::sleeve_for(std::uint32_t edge, std::size_t stretch) {
  const auto [found, is_new] = laid_.try_emplace({edge, stretch});
  if (!is_new) return found->second;
  const wiring::GroundEdge& way = asked_.problem.ground.edges[edge];
  const Point2 a = asked_.problem.ground.nodes[way.a].at;
  const Point2 b = asked_.problem.ground.nodes[way.b].at;
  const double more = way.length_m > 0 ? overhang_m / way.length_m : 0;
  job::Sleeve sleeve;
  sleeve.id = ids_.sleeve();
  sleeve.path = {rounded(between(a, b, std::max(0.0, way.hard_shares[stretch] - more))),
                 rounded(between(a, b, std::min(1.0, way.hard_shares[stretch + 1] + more)))};
  sleeve.diameter_mm = sleeve_mm;
  sleeve.depth_m = sleeve_depth_m;
  to_lay_.push_back(sleeve.id);
  found->second = sleeve.id;
  plan_.sleeves.push_back(std::move(sleeve));
  return found->second;
}

RouteWays::Drawn RouteWays::draw(const wiring::PlanCable& cable) {
  Drawn drawn;
  double longest_m = 0;
  const auto goes_through = [&](const std::string& sleeve, double length_m) {
    if (length_m <= longest_m) return;
    longest_m = length_m;
    drawn.sleeve = sleeve;
  };
  append(drawn.path, asked_.problem.ground.nodes[cable.nodes.front()].at);
  for (std::size_t i = 0; i < cable.edges.size(); ++i) {
    const std::uint32_t e = cable.edges[i];
    const wiring::GroundEdge& edge = asked_.problem.ground.edges[e];
    const bool forward = edge.a == cable.nodes[i];
    Polyline bends;
    if (e >= asked_.own_edge) {
      bends = asked_.own_ways[e - asked_.own_edge];
      if (geometry::distance_m(bends.front(), asked_.problem.ground.nodes[cable.nodes[i]].at) >
          geometry::distance_m(bends.back(), asked_.problem.ground.nodes[cable.nodes[i]].at)) {
        std::reverse(bends.begin(), bends.end());
      }
    } else if (edge.duct != wiring::no_duct) {
      bends = job_.plan.sleeves[edge.duct].path;
      if (!forward) std::reverse(bends.begin(), bends.end());
      goes_through(job_.plan.sleeves[edge.duct].id, edge.length_m);
    }
    for (const Point2 bend : bends) append(drawn.path, bend);
    append(drawn.path, asked_.problem.ground.nodes[cable.nodes[i + 1]].at);
    for (std::size_t k = 0; k + 1 < edge.hard_shares.size(); k += 2) {
      goes_through(sleeve_for(e, k), (edge.hard_shares[k + 1] - edge.hard_shares[k]) * edge.length_m);
    }
  }
  if (drawn.path.size() == 1) drawn.path.push_back(drawn.path.front());
  drawn.length_m = length_of(drawn.path);
  return drawn;
}

}  // namespace duskwire::study
