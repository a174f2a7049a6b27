// SPDX-License-Identifier: Apache-2.0
// A body's way over the sky of a place, from its place at 0 h of three successive days: Meeus, "Astronomical
// Algorithms", 2nd ed. (1998), ch. 3 (interpolation) and ch. 15 (rising, transit, setting), and NREL/TP-560-34302
// A.2, but with the moments found on the curve itself and not by one step of correction, so that they hold where the
// body only grazes the horizon. Valid within a day and a half of the middle.
#pragma once

#include <array>
#include <optional>

#include "almanac/civil_date.hpp"

namespace duskwire::almanac {

struct DayTrack {
  double middle_jd = 0;                       // 0 h of the middle day, terrestrial time
  std::array<double, 3> right_ascension_deg;  // the day before, the day, the day after; running on beyond 360
  std::array<double, 3> declination_deg;
  double equinox_deg = 0;  // apparent less mean sidereal time
  double delta_t_s = 0;    // terrestrial less universal time
};

struct Place {
  double latitude_deg = 0;   // north positive
  double longitude_deg = 0;  // east positive
};

// The sun's, with the middle at 0 h of the date.
[[nodiscard]] DayTrack sun_track(const Date& middle);

// Hour angle west of the meridian, -180 to 180, and altitude of the body's middle, at seconds of UTC since 1970.
// Neither refraction nor parallax: they are in the altitude that is asked for.
[[nodiscard]] double hour_angle_deg(const DayTrack& track, const Place& place, double utc_s);
[[nodiscard]] double altitude_deg(const DayTrack& track, const Place& place, double utc_s);

// When the body passes a given hour angle, next to a first guess.
[[nodiscard]] double passage_s(const DayTrack& track, const Place& place, double hour_angle_deg, double guess_s);

}  // namespace duskwire::almanac
