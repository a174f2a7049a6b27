// SPDX-License-Identifier: Apache-2.0
#include "wiring/ground_cost.hpp"

#include <algorithm>
#include <cmath>

#include "geometry/polygon.hpp"

namespace duskwire::wiring {
namespace {

using geometry::Point2;
using geometry::Polyline;

constexpr double closed_within_m = 0.25;  // a trench beside a closed way is a trench along it
constexpr double closed_sample_m = 0.2;
constexpr double crossing_m = 0.7;  // a way that only crosses a closed one runs along it for less than this
constexpr double free_end_m = 0.5;  // of a closed way: what stands at its ends must be reached from another side
constexpr double grazing_m = 0.02;  // the rounding of a way along an outline

Point2 between(Point2 from, Point2 to, double share) {
  return {from.x_m + share * (to.x_m - from.x_m), from.y_m + share * (to.y_m - from.y_m)};
}

double length_m(const Polyline& way) {
  double sum_m = 0;
  for (std::size_t i = 1; i < way.size(); ++i) sum_m += geometry::distance_m(way[i - 1], way[i]);
  return sum_m;
}

// The stretch of a way between two distances from its start.
Polyline stretch(const Polyline& way, double from_m, double to_m) {
  Polyline cut;
  double at_m = 0;
  for (std::size_t i = 1; i < way.size(); ++i) {
    const double piece_m = geometry::distance_m(way[i - 1], way[i]);
    const double first_m = std::max(from_m, at_m);
    const double last_m = std::min(to_m, at_m + piece_m);
    if (piece_m > 0 && first_m < last_m) {
      if (cut.empty()) cut.push_back(between(way[i - 1], way[i], (first_m - at_m) / piece_m));
      cut.push_back(between(way[i - 1], way[i], (last_m - at_m) / piece_m));
    }
    at_m += piece_m;
  }
  return cut;
}

bool near(const Polyline& way, Point2 at, double within_m) {
  for (std::size_t i = 1; i < way.size(); ++i) {
    if (geometry::distance_to_segment_m(at, way[i - 1], way[i]) <= within_m) return true;
  }
  return false;
}

}  // namespace

GroundCost::Box GroundCost::box_of(const Polyline& points, double margin_m) {
  Box box{HUGE_VAL, -HUGE_VAL, HUGE_VAL, -HUGE_VAL};
  for (const Point2 point : points) {
    box.left_m = std::min(box.left_m, point.x_m - margin_m);
    box.right_m = std::max(box.right_m, point.x_m + margin_m);
    box.low_m = std::min(box.low_m, point.y_m - margin_m);
    box.high_m = std::max(box.high_m, point.y_m + margin_m);
  }
  return box;
}

GroundCost::GroundCost(const GroundMap& map) : map_(map) {
  for (const Patch& patch : map.patches) patch_boxes_.push_back(box_of(patch.outline, 0));
  for (const KeepOff& zone : map.keep_off) keep_off_boxes_.push_back(box_of(zone.outline, zone.distance_m));
  for (const Polyline& way : map.closed_ways) {
    const double whole_m = length_m(way);
    const double end_m = std::min(free_end_m, whole_m / 4);
    closed_ways_.push_back(stretch(way, end_m, whole_m - end_m));
    closed_boxes_.push_back(box_of(closed_ways_.back(), closed_within_m));
  }
}

const Patch* GroundCost::patch_at(Point2 at) const {
  for (std::size_t i = 0; i < map_.patches.size(); ++i) {
    const Box& box = patch_boxes_[i];
    if (at.x_m < box.left_m || at.x_m > box.right_m || at.y_m < box.low_m || at.y_m > box.high_m) continue;
    if (geometry::contains(map_.patches[i].outline, at)) return &map_.patches[i];
  }
  return nullptr;
}

bool GroundCost::blocked(Point2 at) const {
  const Patch* patch = patch_at(at);
  if (patch && patch->blocked) return true;
  if (!map_.boundary.empty() && !geometry::contains(map_.boundary, at)) return true;
  return std::any_of(map_.keep_off.begin(), map_.keep_off.end(),
                     [&](const KeepOff& zone) { return geometry::distance_m(zone.outline, at) < zone.distance_m; });
}

bool GroundCost::joint_allowed(Point2 at) const {
  const Patch* patch = patch_at(at);
  return !patch || patch->joint_allowed;
}

bool GroundCost::closed(Point2 from, Point2 to, const Box& box) const {
  for (std::size_t i = 0; i < map_.keep_off.size(); ++i) {
    if (apart(box, keep_off_boxes_[i])) continue;
    if (geometry::distance_m(map_.keep_off[i].outline, Polyline{from, to}) < map_.keep_off[i].distance_m) return true;
  }
  const double whole_m = geometry::distance_m(from, to);
  const int samples = std::max(2, static_cast<int>(whole_m / closed_sample_m));
  for (std::size_t i = 0; i < closed_ways_.size(); ++i) {
    if (apart(box, closed_boxes_[i])) continue;
    int along = 0;
    for (int k = 0; k <= samples; ++k)
      along += near(closed_ways_[i], between(from, to, double(k) / samples), closed_within_m);
    if (along * whole_m / samples > std::min(crossing_m, whole_m / 2)) return true;
  }
  return false;
}

std::optional<StraightWay> GroundCost::straight(Point2 from, Point2 to, bool through) const {
  const double whole_m = geometry::distance_m(from, to);
  const Box box = box_of({from, to}, 0);
  if (closed(from, to, box)) return std::nullopt;
  std::vector<double> shares{0, 1};
  for (std::size_t i = 0; i < map_.patches.size(); ++i) {
    if (apart(box, patch_boxes_[i])) continue;
    const std::vector<double> met = geometry::crossings(map_.patches[i].outline, from, to);
    shares.insert(shares.end(), met.begin(), met.end());
  }
  if (!map_.boundary.empty()) {
    const std::vector<double> met = geometry::crossings(map_.boundary, from, to);
    shares.insert(shares.end(), met.begin(), met.end());
  }
  std::sort(shares.begin(), shares.end());
  StraightWay way;
  for (std::size_t k = 1; k < shares.size(); ++k) {
    const double piece_m = (shares[k] - shares[k - 1]) * whole_m;
    if (piece_m <= 0) continue;
    const Point2 middle = between(from, to, (shares[k - 1] + shares[k]) / 2);
    const Patch* patch = patch_at(middle);
    const bool outside = !map_.boundary.empty() && !geometry::contains(map_.boundary, middle);
    if (outside || (patch && patch->blocked)) way.blocked_m += piece_m;
    if (way.blocked_m > grazing_m && !through) return std::nullopt;
    way.dig_cost += piece_m * (patch ? patch->dig_per_m : map_.open_dig_per_m);
    if (!patch || !patch->hard || piece_m <= grazing_m) continue;
    const bool goes_on = !way.hard_shares.empty() && way.hard_shares.back() == shares[k - 1];
    if (goes_on) {
      way.hard_shares.back() = shares[k];
    } else {
      way.hard_shares.insert(way.hard_shares.end(), {shares[k - 1], shares[k]});
    }
  }
  return way;
}

}  // namespace duskwire::wiring
