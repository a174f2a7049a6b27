// SPDX-License-Identifier: Apache-2.0
// The four load kinds once more, written from their definition and not from the solver's code, for the tests that
// recompute currents. S is the apparent power in the condition at hand, volt-amperes.
#pragma once

#include <algorithm>
#include <cmath>

#include "electrical/network.hpp"

namespace duskwire::electrical::testing {

inline constexpr double fade_in_v = 0.25;         // LED kinds: from cut-off to cut-off + this the current fades in
inline constexpr double leak_s = 1e-6;            // LED kinds with power, below cut-off: what is left of them
inline constexpr double least_bridge_ohm = 1e-6;  // a bridge is never less
inline constexpr double filament_linear = 0.05;   // below this share of its rated volts a filament is a plain resistor

[[nodiscard]] inline bool is_led_kind(LoadKind kind) {
  return kind == LoadKind::regulated_led || kind == LoadKind::constant_current_led;
}

// From here up an LED holds its light: in its regulation range and faded in fully.
[[nodiscard]] inline double holding_volts(const Load& load) {
  return std::max(load.v_regulation_min, load.v_cut_off + fade_in_v);
}

[[nodiscard]] inline double load_va(const Network& network, const Condition& condition, std::size_t load) {
  const double level = level_of(condition, load);
  return network.loads[load].power_va * level * condition.load_factor;
}

// Current at v >= 0.
[[nodiscard]] inline double forward_current_a(const Load& load, double va, double v) {
  if (va <= 0) return 0;
  const double fade = std::clamp((v - load.v_cut_off) / fade_in_v, 0.0, 1.0);
  switch (load.kind) {
    case LoadKind::regulated_led:
      return (fade == 0 ? 0.0 : fade * va / std::max(v, load.v_regulation_min)) + (1 - fade) * leak_s * v;
    case LoadKind::filament:
      if (v < filament_linear * load.rated_v) {
        return va / load.rated_v * std::pow(filament_linear, 0.6) * v / (filament_linear * load.rated_v);
      }
      return va / load.rated_v * std::pow(v / load.rated_v, 0.6);
    case LoadKind::resistive:
      return va * v / (load.rated_v * load.rated_v);
    case LoadKind::constant_current_led:
      return fade * va / load.rated_v + (1 - fade) * leak_s * v;
  }
  return 0;
}

// Lamps do not mind polarity: odd in v.
[[nodiscard]] inline double expected_current_a(const Load& load, double va, double v) {
  return std::copysign(forward_current_a(load, va, std::abs(v)), v);
}

}  // namespace duskwire::electrical::testing
