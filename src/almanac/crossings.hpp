// SPDX-License-Identifier: Apache-2.0
// When a body passes an altitude between two moments: found on its curve, so that a grazing passage of a few minutes is
// neither missed nor made up.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "almanac/day_track.hpp"

namespace duskwire::almanac {

enum class SunState : std::uint8_t {
  rises_and_sets = 0,  // passes the altitude at least once
  always_above = 1,
  always_below = 2,
};

struct Crossings {
  SunState state = SunState::rises_and_sets;
  std::optional<double> rise_s;  // seconds of UTC since 1970; the first upward passage
  std::optional<double> set_s;   // the last downward one

  bool operator==(const Crossings&) const = default;
};

// The body's curve over one stretch of at most a day, sampled once and asked for several altitudes.
class SkyCurve {
 public:
  SkyCurve(const DayTrack& track, const Place& place, double from_s, double to_s);

  [[nodiscard]] Crossings through(double altitude_deg) const;

 private:
  struct Point {
    double moment_s = 0;
    double altitude_deg = 0;
  };

  [[nodiscard]] Point at(double moment_s) const;
  [[nodiscard]] Point turning_point(const Point& before, const Point& middle, const Point& after) const;
  [[nodiscard]] double passage(const Point& before, const Point& after, double altitude_deg) const;

  DayTrack track_;
  Place place_;
  std::vector<Point> points_;  // samples and turning points, in time
};

}  // namespace duskwire::almanac
