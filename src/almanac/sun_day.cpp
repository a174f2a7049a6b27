// SPDX-License-Identifier: Apache-2.0
#include "almanac/sun_day.hpp"

#include <cmath>

#include "almanac/sun_place.hpp"

namespace duskwire::almanac {

SunDay sun_day(const Place& place, const Date& date, double clock_lead_s) {
  constexpr double half_day_s = seconds_per_day / 2.0;
  constexpr double seconds_per_degree = seconds_per_day / 360.0;
  const double start_s = static_cast<double>(day_number(date)) * seconds_per_day;
  // Noon by the sun that falls nearest to noon by the clock: beyond the date line it is another meridian's date.
  const double clock_noon_s = start_s + half_day_s - clock_lead_s;
  double guess_s = start_s + half_day_s - place.longitude_deg * seconds_per_degree;
  guess_s -= 60 * equation_of_time_min(jd_of_1970 + guess_s / seconds_per_day);
  guess_s += std::round((clock_noon_s - guess_s) / seconds_per_day) * seconds_per_day;

  const auto middle = static_cast<std::int64_t>(std::lround(guess_s / seconds_per_day));
  const DayTrack track = sun_track(date_of(middle));
  SunDay day;
  day.date = date;
  day.noon_s = passage_s(track, place, 0, guess_s);
  day.begin_s = passage_s(track, place, 180, day.noon_s - half_day_s);
  day.end_s = passage_s(track, place, 180, day.noon_s + half_day_s);
  const SkyCurve curve(track, place, day.begin_s, day.end_s);
  day.sun = curve.through(rise_altitude_deg);
  day.civil = curve.through(civil_altitude_deg);
  day.nautical = curve.through(nautical_altitude_deg);
  day.astronomical = curve.through(astronomical_altitude_deg);
  return day;
}

SunDay sun_day(const Place& place, const Date& date) {
  return sun_day(place, date, place.longitude_deg * seconds_per_day / 360.0);
}

}  // namespace duskwire::almanac
