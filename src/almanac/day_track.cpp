// SPDX-License-Identifier: Apache-2.0
#include "almanac/day_track.hpp"

#include <cmath>
#include <cstddef>
#include <numbers>

#include "almanac/sun_place.hpp"

namespace duskwire::almanac {
namespace {

constexpr double rad = std::numbers::pi / 180;
constexpr double sidereal_deg_per_s = 360.98564736629 / seconds_per_day;

// Meeus (3.3), n in days from the middle.
double interpolated(const std::array<double, 3>& y, double n) {
  const double a = y[1] - y[0];
  const double b = y[2] - y[1];
  return y[1] + n / 2 * (a + b + n * (b - a));
}

double days_from_middle(const DayTrack& track, double utc_s) {
  return utc_s / seconds_per_day + jd_of_1970 - track.middle_jd + track.delta_t_s / seconds_per_day;
}

double within_half_turn(double degrees) {
  const double full = turned(degrees);
  return full > 180 ? full - 360 : full;
}

}  // namespace

DayTrack sun_track(const Date& middle) {
  DayTrack track;
  track.middle_jd = jd_of_1970 + static_cast<double>(day_number(middle));
  track.delta_t_s = delta_t_s(static_cast<int>(middle.year()) + (static_cast<unsigned>(middle.month()) - 0.5) / 12);
  for (std::size_t i = 0; i < 3; ++i) {
    const SunPlace place = sun_place(track.middle_jd + static_cast<double>(i) - 1);
    track.right_ascension_deg[i] = place.right_ascension_deg;
    track.declination_deg[i] = place.declination_deg;
    if (i > 0 && place.right_ascension_deg < track.right_ascension_deg[i - 1]) track.right_ascension_deg[i] += 360;
    if (i == 1) track.equinox_deg = place.nutation_longitude_deg * std::cos(rad * place.obliquity_deg);
  }
  return track;
}

double hour_angle_deg(const DayTrack& track, const Place& place, double utc_s) {
  const double sidereal = sidereal_deg(jd_of_1970 + utc_s / seconds_per_day, 0, 0) + track.equinox_deg;
  const double right_ascension = interpolated(track.right_ascension_deg, days_from_middle(track, utc_s));
  return within_half_turn(sidereal + place.longitude_deg - right_ascension);
}

double altitude_deg(const DayTrack& track, const Place& place, double utc_s) {
  const double hour_angle = rad * hour_angle_deg(track, place, utc_s);
  const double declination = rad * interpolated(track.declination_deg, days_from_middle(track, utc_s));
  const double latitude = rad * place.latitude_deg;
  return std::asin(std::sin(latitude) * std::sin(declination) +
                   std::cos(latitude) * std::cos(declination) * std::cos(hour_angle)) /
         rad;
}

double passage_s(const DayTrack& track, const Place& place, double hour_angle, double guess_s) {
  double moment_s = guess_s;
  // The body gains little on the stars in a step: each one leaves a few thousandths of the error before.
  for (int step = 0; step < 5; ++step) {
    moment_s -= within_half_turn(hour_angle_deg(track, place, moment_s) - hour_angle) / sidereal_deg_per_s;
  }
  return moment_s;
}

}  // namespace duskwire::almanac
