// SPDX-License-Identifier: Apache-2.0
// The sun's day at a place: from the lower passage before noon of a date to the one after. Its sunset may fall after
// midnight by the clock, far north in May; it is still the sunset of that day, so that each day has its own.
#pragma once

#include "almanac/crossings.hpp"

namespace duskwire::almanac {

// The sun's middle at rise and set: 34' of refraction at the horizon and 16' of radius, at sea level. Definition of the
// US Naval Observatory's tables. Twilights as it defines them: the middle 6, 12, 18 degrees below.
inline constexpr double rise_altitude_deg = -50.0 / 60;
inline constexpr double civil_altitude_deg = -6;
inline constexpr double nautical_altitude_deg = -12;
inline constexpr double astronomical_altitude_deg = -18;

struct SunDay {
  Date date;           // the place's own date at noon by the sun
  double noon_s = 0;   // upper passage; all moments are seconds of UTC since 1970
  double begin_s = 0;  // lower passages at either side
  double end_s = 0;
  Crossings sun;  // always_above: polar day; always_below: polar night
  Crossings civil;
  Crossings nautical;
  Crossings astronomical;
};

// Latitude within -90 to 90, longitude within -180 to 180, year within 1986 to 2150. `clock_lead_s`: how far the clock
// there is ahead of UTC, so that the date is the one that people there have; without it the date of the meridian.
[[nodiscard]] SunDay sun_day(const Place& place, const Date& date, double clock_lead_s);
[[nodiscard]] SunDay sun_day(const Place& place, const Date& date);

}  // namespace duskwire::almanac
