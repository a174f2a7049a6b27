// SPDX-License-Identifier: Apache-2.0
// Between two neighbouring points of the curve it only rises or only falls, since every turning point is one of them.
#include "almanac/crossings.hpp"

#include <cstddef>

namespace duskwire::almanac {
namespace {

constexpr std::size_t samples = 49;  // half an hour apart over a day

}  // namespace

SkyCurve::SkyCurve(const DayTrack& track, const Place& place, double from_s, double to_s)
    : track_(track), place_(place) {
  std::vector<Point> raw;
  for (std::size_t i = 0; i < samples; ++i) {
    raw.push_back(at(from_s + (to_s - from_s) * static_cast<double>(i) / (samples - 1)));
  }
  for (std::size_t i = 0; i < raw.size(); ++i) {
    points_.push_back(raw[i]);
    if (i == 0 || i + 1 == raw.size()) continue;
    const double left = raw[i].altitude_deg - raw[i - 1].altitude_deg;
    const double right = raw[i + 1].altitude_deg - raw[i].altitude_deg;
    if (left * right > 0) continue;
    const Point turn = turning_point(raw[i - 1], raw[i], raw[i + 1]);
    points_.insert(turn.moment_s < raw[i].moment_s ? points_.end() - 1 : points_.end(), turn);
  }
}

SkyCurve::Point SkyCurve::at(double moment_s) const { return {moment_s, altitude_deg(track_, place_, moment_s)}; }

// By thirds: the curve has one hump, up or down, between the outer points.
SkyCurve::Point SkyCurve::turning_point(const Point& before, const Point& middle, const Point& after) const {
  const double sign = middle.altitude_deg >= before.altitude_deg ? 1 : -1;
  double low_s = before.moment_s;
  double high_s = after.moment_s;
  while (high_s - low_s > 0.1) {
    const Point left = at(low_s + (high_s - low_s) / 3);
    const Point right = at(high_s - (high_s - low_s) / 3);
    if (sign * left.altitude_deg < sign * right.altitude_deg) {
      low_s = left.moment_s;
    } else {
      high_s = right.moment_s;
    }
  }
  return at((low_s + high_s) / 2);
}

double SkyCurve::passage(const Point& before, const Point& after, double altitude) const {
  const bool rising = after.altitude_deg > before.altitude_deg;
  double low_s = before.moment_s;
  double high_s = after.moment_s;
  while (high_s - low_s > 0.01) {
    const double middle_s = (low_s + high_s) / 2;
    const bool before_it = (at(middle_s).altitude_deg < altitude) == rising;
    (before_it ? low_s : high_s) = middle_s;
  }
  return (low_s + high_s) / 2;
}

Crossings SkyCurve::through(double altitude) const {
  Crossings found;
  for (std::size_t i = 1; i < points_.size(); ++i) {
    const bool was_up = points_[i - 1].altitude_deg >= altitude;
    const bool is_up = points_[i].altitude_deg >= altitude;
    if (was_up == is_up) continue;
    const double moment_s = passage(points_[i - 1], points_[i], altitude);
    if (!is_up) {
      found.set_s = moment_s;
    } else if (!found.rise_s) {
      found.rise_s = moment_s;
    }
  }
  if (!found.rise_s && !found.set_s) {
    found.state = points_.front().altitude_deg >= altitude ? SunState::always_above : SunState::always_below;
  }
  return found;
}

}  // namespace duskwire::almanac
