// SPDX-License-Identifier: Apache-2.0
// Resistance of copper conductors: from area, from length, at a temperature. Used by study and by the reference tests.
#pragma once

namespace duskwire::electrical {

// IACS: 100 % conductivity copper at 20 C, 1/58 ohm mm2/m (NBS Handbook 100, 1966; figure from memory, agrees with the
// computed table in tests/reference/conductors.csv).
inline constexpr double copper_ohm_mm2_per_m_20c = 1.0 / 58.0;
// Temperature coefficient at 20 C, per kelvin (same source).
inline constexpr double copper_alpha_20c_per_k = 0.00393;

[[nodiscard]] constexpr double copper_ohm_per_m_20c(double area_mm2) { return copper_ohm_mm2_per_m_20c / area_mm2; }

// R(t) = R20 (1 + alpha (t - 20)). Holds for -40 ... 150 C. Agrees within 0.01 % with (234.5 + t) / 254.5 of
// FAA AC 43.13-1B par. 11-66.
[[nodiscard]] constexpr double copper_temperature_factor(double temperature_c) {
  return 1.0 + copper_alpha_20c_per_k * (temperature_c - 20.0);
}

}  // namespace duskwire::electrical
