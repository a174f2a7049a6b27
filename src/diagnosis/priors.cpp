// SPDX-License-Identifier: Apache-2.0
#include "diagnosis/priors.hpp"

#include <algorithm>

namespace duskwire::diagnosis {
namespace {

// Share of calls by symptom, common practice, no source.
constexpr double all_dark = 0.12;
constexpr double dark_beyond = 0.20;
constexpr double one_dark = 0.30;
constexpr double dim = 0.22;
constexpr double trips = 0.13;

void ageing(Priors& p, double age_years) {
  const double older = std::clamp(age_years / 5, 0.3, 3.0);
  p.water *= older;
  p.resistive *= older;
}

}  // namespace

Priors priors(const History& history, bool has_leads) {
  Priors p;
  p.no_mains = 0.55 * all_dark;
  p.control_off = 0.22 * all_dark;
  p.tripped = 0.12 * all_dark + 0.18 * trips;
  p.transformer_dead = 0.05 * all_dark;
  p.lifted_at_output = 0.10 * dark_beyond;
  p.open_trunk = 0.90 * dark_beyond;
  p.half_open_in_loop = 0.90 * dark_beyond;
  p.dead_lamp = (has_leads ? 0.60 : 0.90) * one_dark;
  p.open_lead = 0.30 * one_dark;
  p.water = 0.10 * one_dark;
  p.resistive = 0.40 * dim;
  p.wrong_gauge = (history.new_work ? 0.30 : 0.10) * dim;
  p.added_load = 0.15 * dim;
  p.low_mains = p.wrong_tap = p.weak_output = 0.05 * dim;
  p.short_span = 0.40 * trips;
  p.short_lamp = 0.30 * trips;
  p.crossed = 0.05 * trips;
  p.bridged_taps = 0.02 * trips;
  if (history.age_years > 0) ageing(p, history.age_years);
  if (history.new_work) {
    p.crossed *= 10;
    p.wrong_tap *= 3;
    p.dead_lamp *= 0.5;
    p.water *= 0.3;
  }
  if (history.rained) {
    p.no_mains *= 2;
    p.water *= 3;
    p.short_lamp *= 2;
  }
  if (history.storm) {
    p.dead_lamp *= 2;
    p.transformer_dead *= 3;
  }
  if (history.digging) {
    p.open_trunk *= 1.5;
    p.short_span *= 2;
    p.dug_cable_factor = 12;  // then a cut is 60 to 75 % of all open spans: 12 : (12 + 3 + 3)
  }
  p.sound = history.complaint ? 0.03 : 1.5;
  return p;
}

}  // namespace duskwire::diagnosis
