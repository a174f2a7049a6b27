// SPDX-License-Identifier: Apache-2.0
// How the current of a load follows its voltage, for one load and for many at once. All laws are odd in V (mains lamps
// do not care for polarity); below, V stands for its size and S for power_va x level x load_factor.
//
// regulated LED         I = t S / max(V, v_regulation_min) + (1 - t) off_leak_s V
// constant-current LED  I = t S / rated_v                  + (1 - t) off_leak_s V
//   (nothing at S = 0: switched off, or dimmed to nothing)
//   with t = clamp((V - v_cut_off) / cut_off_band_v, 0, 1): the driver fades in over a narrow band, so that a steady
//   state exists at every supply; the leak gives a severed conductor a defined potential.
// filament              I = S / rated_v (V / rated_v)^0.6, straight through zero below 5 % of rated_v
//   (power ~ V^1.6, light ~ V^3.4: IES Lighting Handbook form, from memory; lamp rerating exponents).
// resistive             I = S V / rated_v^2
//
// The regulated current is bounded, so that a network always has a steady state even where no regulated one exists.
#pragma once

#include <cstdint>
#include <vector>

#include "electrical/network.hpp"
#include "electrical/solution.hpp"

namespace duskwire::electrical {

inline constexpr double cut_off_band_v = 0.25;
inline constexpr double off_leak_s = 1e-6;
inline constexpr double filament_linear_below = 0.05;  // share of rated_v
// Least resistance of a bridge: a bolted short between ideal parts then has a finite current.
inline constexpr double bridge_min_ohm = 1e-6;

// Straight line that stands for a load near one voltage: I = slope_s V + offset_a.
struct LoadPoint {
  double current_a = 0;
  double slope_s = 0;  // dI/dV
};

// One load at `v` (signed), drawing `s_va`.
[[nodiscard]] LoadPoint load_point(const Load& load, double s_va, double v);

// No chord of the law from `v` to anywhere between it and the larger `top_v` falls more steeply than this.
[[nodiscard]] double least_chord_s(const Load& load, double s_va, double v, double top_v);

// Share of full light at `v`, with `level` the dimming 0..1; and the lamp's state.
[[nodiscard]] double load_light(const Load& load, double level, double v);
[[nodiscard]] LampState load_state(const Load& load, double s_va, double v);

[[nodiscard]] inline bool is_led(LoadKind kind) {
  return kind == LoadKind::regulated_led || kind == LoadKind::constant_current_led;
}

// From here up the lamp holds its light: its regulation range, but not before an LED has faded in fully.
[[nodiscard]] inline double holding_v(const Load& load) {
  const double faded_in_v = is_led(load.kind) ? load.v_cut_off + cut_off_band_v : 0.0;
  return load.v_regulation_min > faded_in_v ? load.v_regulation_min : faded_in_v;
}

// A row of loads as arrays, one per slot. Slots of other kinds than regulated LED stand as an empty slot (never draws,
// never below regulation) and in `special`.
struct LoadBank {
  struct Special {
    std::uint32_t slot = 0;
    Load load;
    std::uint32_t index = 0;  // of the load in the network, or no_load
  };
  static constexpr std::uint32_t no_load = 0xffffffffu;

  std::vector<double> s_va;  // nominal
  std::vector<double> v_reg;
  std::vector<double> v_cut;
  std::vector<std::uint32_t> load;  // network index, or no_load
  std::vector<Special> special;

  void add_empty();
  void add(const Load& load, std::uint32_t index);
  [[nodiscard]] std::size_t size() const { return s_va.size(); }
};

enum class Linearisation : std::uint8_t {
  tangent = 0,   // Newton
  monotone = 1,  // never a negative slope: from above it comes down to the highest steady state, slowly
  chord = 2,     // through the cut-off, and what is dark as it is: quicker, but sure only where volts never rise again
};

// What linearise() saw at the voltages it was given.
struct LinearisationCheck {
  double residual_a = 0;          // largest |I(v) - (slope v + offset)| of the lines held before the call
  bool below_regulation = false;  // some LED is under its regulation range
};

// Replaces the lines (slope_s, offset_a) of slots [first, last) by new ones at `v`. `s_va` are the powers in force;
// `special_scale(load index)` is applied to the special ones' power by the caller through `special_s_va`.
LinearisationCheck linearise(const LoadBank& bank, const double* s_va, const double* special_s_va, const double* v,
                             std::size_t first, std::size_t last, std::size_t special_first, std::size_t special_last,
                             Linearisation mode, double* slope_s, double* offset_a);

}  // namespace duskwire::electrical
