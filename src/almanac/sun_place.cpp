// SPDX-License-Identifier: Apache-2.0
// One-letter symbols are those of the report: T centuries, tau millennia from J2000.
#include "almanac/sun_place.hpp"

#include <cmath>
#include <numbers>

#include "almanac/sun_terms.hpp"

namespace duskwire::almanac {
namespace {

constexpr double rad = std::numbers::pi / 180;

double sum(const Series& series, double tau) {
  double total = 0;
  double power = 1;
  for (const auto& terms : series) {
    double part = 0;
    for (const PeriodicTerm& term : terms) part += term.amplitude * std::cos(term.phase_rad + term.rate_rad * tau);
    total += part * power;
    power *= tau;
  }
  return total * 1e-8;
}

// Section 3.4.
void add_nutation(double T, SunPlace& place) {
  const double T2 = T * T;
  const double T3 = T2 * T;
  const double elongation = 297.85036 + 445267.111480 * T - 0.0019142 * T2 + T3 / 189474;
  const double sun_anomaly = 357.52772 + 35999.050340 * T - 0.0001603 * T2 - T3 / 300000;
  const double moon_anomaly = 134.96298 + 477198.867398 * T + 0.0086972 * T2 + T3 / 56250;
  const double moon_latitude = 93.27191 + 483202.017538 * T - 0.0036825 * T2 + T3 / 327270;
  const double node = 125.04452 - 1934.136261 * T + 0.0020708 * T2 + T3 / 450000;
  double psi = 0;
  double eps = 0;
  for (const NutationTerm& term : nutation_terms()) {
    const double argument =
        rad * (term.elongation * elongation + term.sun_anomaly * sun_anomaly + term.moon_anomaly * moon_anomaly +
               term.moon_latitude * moon_latitude + term.node * node);
    psi += (term.psi + term.psi_t * T) * std::sin(argument);
    eps += (term.eps + term.eps_t * T) * std::cos(argument);
  }
  constexpr double units_per_degree = 36'000'000;
  place.nutation_longitude_deg = psi / units_per_degree;
  place.nutation_obliquity_deg = eps / units_per_degree;
}

// Section 3.5, U in ten thousand years; seconds of arc.
double mean_obliquity_deg(double U) {
  constexpr double coefficients[] = {2.45, 5.79, 27.87, 7.12, -39.05, -249.67, -51.38, 1999.25, -1.55, -4680.93};
  double seconds = 0;
  for (const double coefficient : coefficients) seconds = (seconds + coefficient) * U;
  return (84381.448 + seconds) / 3600;
}

}  // namespace

double turned(double degrees) {
  const double rest = std::fmod(degrees, 360.0);
  return rest < 0 ? rest + 360 : rest;
}

SunPlace sun_place(double ephemeris_jd) {
  const double T = (ephemeris_jd - jd_of_2000) / 36525;
  const double tau = T / 10;
  SunPlace place;
  place.earth_longitude_deg = turned(sum(longitude_terms(), tau) / rad);
  place.earth_latitude_deg = sum(latitude_terms(), tau) / rad;
  place.radius_au = sum(radius_terms(), tau);
  add_nutation(T, place);
  place.obliquity_deg = mean_obliquity_deg(T / 100) + place.nutation_obliquity_deg;
  const double aberration_deg = -20.4898 / (3600 * place.radius_au);
  const double lambda = rad * (place.earth_longitude_deg + 180 + place.nutation_longitude_deg + aberration_deg);
  const double beta = -rad * place.earth_latitude_deg;
  const double eps = rad * place.obliquity_deg;
  place.right_ascension_deg =
      turned(std::atan2(std::sin(lambda) * std::cos(eps) - std::tan(beta) * std::sin(eps), std::cos(lambda)) / rad);
  place.declination_deg =
      std::asin(std::sin(beta) * std::cos(eps) + std::cos(beta) * std::sin(eps) * std::sin(lambda)) / rad;
  return place;
}

double sidereal_deg(double universal_jd, double nutation_longitude_deg, double obliquity_deg) {
  const double T = (universal_jd - jd_of_2000) / 36525;
  const double mean =
      280.46061837 + 360.98564736629 * (universal_jd - jd_of_2000) + 0.000387933 * T * T - T * T * T / 38710000;
  return turned(mean + nutation_longitude_deg * std::cos(rad * obliquity_deg));
}

double equation_of_time_min(double ephemeris_jd) {
  const double t = (ephemeris_jd - jd_of_2000) / 365250;
  const double mean_longitude_deg =
      280.4664567 + t * (360007.6982779 + t * (0.03032028 + t * (1.0 / 49931 + t * (-1.0 / 15300 - t / 2000000))));
  const SunPlace place = sun_place(ephemeris_jd);
  const double difference_deg = turned(mean_longitude_deg - 0.0057183 - place.right_ascension_deg +
                                       place.nutation_longitude_deg * std::cos(rad * place.obliquity_deg));
  return 4 * (difference_deg > 180 ? difference_deg - 360 : difference_deg);
}

double delta_t_s(double year) {
  const double t = year - 2000;
  if (year < 2005) {
    return 63.86 + t * (0.3345 + t * (-0.060374 + t * (0.0017275 + t * (0.000651814 + t * 0.00002373599))));
  }
  if (year < 2050) return 62.92 + t * (0.32217 + t * 0.005589);
  const double u = (year - 1820) / 100;
  return -20 + 32 * u * u - 0.5628 * (2150 - year);
}

}  // namespace duskwire::almanac
