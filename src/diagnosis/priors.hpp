// SPDX-License-Identifier: Apache-2.0
// How common each kind of fault is, as shares of all calls: the classes of symptom and, within each, their causes.
// Estimates of the trade without data behind them, except where docs/algorithms/diagnosis.md names a source. They
// decide only while readings do not. Internal to the room.
#pragma once

#include "diagnosis/problem.hpp"

namespace duskwire::diagnosis {

// Totals over the whole garden; each is spread over the places where it may sit.
struct Priors {
  double no_mains = 0;
  double control_off = 0;
  double tripped = 0;
  double transformer_dead = 0;
  double open_trunk = 0;
  double lifted_at_output = 0;
  double half_open_in_loop = 0;  // one conductor, where a loop keeps all lit
  double dead_lamp = 0;
  double open_lead = 0;
  double water = 0;
  double resistive = 0;
  double wrong_gauge = 0;
  double added_load = 0;
  double low_mains = 0;
  double wrong_tap = 0;
  double weak_output = 0;
  double short_span = 0;
  double short_lamp = 0;
  double crossed = 0;
  double bridged_taps = 0;
  double sound = 0;

  // Within an open span: a splice against its cable, and what digging beside a cable does to that.
  double splice_weight = 3;
  double cable_weight = 1;
  double dug_cable_factor = 1;
};

[[nodiscard]] Priors priors(const History& history, bool has_leads);

// A second fault beside the first, by chance.
inline constexpr double second_fault_share = 0.08;

}  // namespace duskwire::diagnosis
