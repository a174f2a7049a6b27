// SPDX-License-Identifier: Apache-2.0
#include "study/tape_offsets.hpp"

#include <algorithm>
#include <cmath>

namespace duskwire::study {
namespace {

using geometry::Point2;

constexpr double least_offset_m = 0.1;
constexpr double least_sine = 0.25;  // two tapes that meet flatter than some 15 degrees fix nothing

double turn_of(Point2 origin, Point2 p, Point2 q) {
  return (p.x_m - origin.x_m) * (q.y_m - origin.y_m) - (p.y_m - origin.y_m) * (q.x_m - origin.x_m);
}

TapeSide side_of(Point2 from, Point2 to, Point2 place) {
  const double turn = turn_of(from, to, place);
  if (turn == 0) return TapeSide::unknown;
  return turn > 0 ? TapeSide::left : TapeSide::right;
}

const job::FixedPoint* find(const job::Plan& plan, const std::string& id) {
  const auto found = std::find_if(plan.fixed_points.begin(), plan.fixed_points.end(),
                                  [&](const job::FixedPoint& point) { return point.id == id; });
  return found == plan.fixed_points.end() ? nullptr : &*found;
}

TapeOffset offset(const job::FixedPoint& point, double distance_m) { return {point.id, point.name, distance_m}; }

// How far off the place may be for tapes that are each as wrong as they are long: the longer of both over the sine of
// the angle at which they meet. Infinite where that angle is too flat.
double uncertainty(Point2 place, const job::FixedPoint& p, const job::FixedPoint& q) {
  const double p_m = geometry::distance_m(place, p.position);
  const double q_m = geometry::distance_m(place, q.position);
  if (p_m < least_offset_m || q_m < least_offset_m) return INFINITY;
  const double sine = std::abs(turn_of(place, p.position, q.position)) / (p_m * q_m);
  return sine < least_sine ? INFINITY : std::max(p_m, q_m) / sine;
}

}  // namespace

std::optional<TapeOffsets> plan_offsets(const job::Plan& plan, Point2 place) {
  const job::FixedPoint* first = nullptr;
  const job::FixedPoint* second = nullptr;
  double least = INFINITY;
  for (std::size_t i = 0; i < plan.fixed_points.size(); ++i) {
    for (std::size_t k = i + 1; k < plan.fixed_points.size(); ++k) {
      const double here = uncertainty(place, plan.fixed_points[i], plan.fixed_points[k]);
      if (!(here < least)) continue;
      least = here;
      first = &plan.fixed_points[i];
      second = &plan.fixed_points[k];
    }
  }
  if (!first) return std::nullopt;
  return TapeOffsets{offset(*first, geometry::distance_m(place, first->position)),
                     offset(*second, geometry::distance_m(place, second->position)),
                     side_of(first->position, second->position, place), false};
}

std::optional<TapeOffsets> joint_offsets(const job::Plan& plan, const job::Joint& joint) {
  if (joint.as_built && joint.as_built->offset_1_m && joint.as_built->offset_2_m) {
    const job::FixedPoint* first = find(plan, joint.as_built->fixed_point_1);
    const job::FixedPoint* second = find(plan, joint.as_built->fixed_point_2);
    if (first && second) {
      const TapeSide side =
          joint.position ? side_of(first->position, second->position, *joint.position) : TapeSide::unknown;
      return TapeOffsets{offset(*first, *joint.as_built->offset_1_m), offset(*second, *joint.as_built->offset_2_m),
                         side, true};
    }
  }
  return joint.position ? plan_offsets(plan, *joint.position) : std::nullopt;
}

}  // namespace duskwire::study
