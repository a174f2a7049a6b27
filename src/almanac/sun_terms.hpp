// SPDX-License-Identifier: Apache-2.0
// The number tables behind the sun's place: series for the earth's heliocentric place and for the nutation.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

namespace duskwire::almanac {

// amplitude cos(phase + rate tau), tau in Julian millennia from J2000; amplitudes in 1e-8 rad (radius: 1e-8 AU).
struct PeriodicTerm {
  double amplitude = 0;
  double phase_rad = 0;
  double rate_rad = 0;
};

// One list for each power of tau, from 0.
using Series = std::vector<std::span<const PeriodicTerm>>;
[[nodiscard]] const Series& longitude_terms();
[[nodiscard]] const Series& latitude_terms();
[[nodiscard]] const Series& radius_terms();

// (psi + psi_t T) sin(arg) and (eps + eps_t T) cos(arg), in 0.0001 seconds of arc; arg is a sum of multiples of the
// mean elongation of the moon, the anomalies of sun and moon, the moon's argument of latitude and its ascending node.
struct NutationTerm {
  std::int8_t elongation, sun_anomaly, moon_anomaly, moon_latitude, node;
  double psi, psi_t, eps, eps_t;
};
[[nodiscard]] std::span<const NutationTerm> nutation_terms();

}  // namespace duskwire::almanac
