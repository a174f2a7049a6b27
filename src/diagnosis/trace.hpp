// SPDX-License-Identifier: Apache-2.0
// A network that nobody drew. From the ways that a locator followed, what a clamp and a meter read along them and which
// lamps went dark when a run was lifted: which lamp hangs on which run and where, through which cable, each with its
// chance. Knows no job. Deterministic: what is drawn by lot is drawn from `seed`.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "geometry/point.hpp"

namespace duskwire::diagnosis {

struct TracedLamp {
  geometry::Point2 at;
  double rated_a = 0;  // at rated_v
  double rated_v = 12;
  double volts_power = -1;         // the current goes with the volts to this power: regulated -1, filament 0.6
  double least_v = 0;              // below it a regulated lamp's current grows no more
  std::optional<double> measured;  // volts at its base, lamps on
};

// Amperes in one conductor of a run at a place on its way: those of all lamps beyond.
struct TracedClamp {
  geometry::Point2 at;
  double current_a = 0;
};

// A run leaves the transformer on its own. Each way after the first begins at an earlier one.
struct TracedRun {
  double source_v = 0;        // under load
  double source_sigma_v = 0;  // one standard deviation; shared by all that hangs on the run
  std::vector<geometry::Polyline> ways;
  std::vector<double> loop_ohm_per_m;  // of each cable that it may be, both conductors
  std::optional<double> current_a;     // where it leaves the transformer
  std::vector<TracedClamp> clamps;
  std::vector<std::uint32_t> went_dark;   // lamps, when this run alone was lifted
  std::vector<std::uint32_t> stayed_lit;  // the same
};

// One standard deviation each. Common practice, no source.
struct TraceSpread {
  double usual_lead_m = 2;     // mean way from a lamp to the cable that feeds it
  double unwalked_m = 9;       // as unlikely as a lead of that length: the lamp hangs on what nobody walked
  double lamp_share = 0.08;    // of a lamp's own current
  double longer = 1.08;        // a run's cable and splices drop so many times what its walked metres would
  double longer_share = 0.08;  // of that, shared by the whole run
  double drop_share = 0.07;    // of a drop, place by place
  double clamp_share = 0.02;   // of a current, beside clamp_a
  double clamp_a = 0.02;
  double meter_v = 0.04;
  double wrong_volts = 0.02;  // chance that a reading of volts is of something else
  double wrong_look = 0.02;   // chance that a lamp was taken for dark or lit by mistake
};

struct TraceProblem {
  std::vector<TracedLamp> lamps;
  std::vector<TracedRun> runs;
  double lead_loop_ohm_per_m = 0.0166;  // 14 AWG, both conductors
  TraceSpread spread;
  std::uint64_t seed = 1;
};

// Where a lamp may hang: a place on one way of one run.
struct TracePlace {
  std::uint32_t run = 0;
  std::uint32_t way = 0;
  double along_m = 0;  // on that way
  double lead_m = 0;   // from there to the lamp
  geometry::Point2 at;
  double chance = 0;
};

struct LampTrace {
  std::vector<TracePlace> places;  // likeliest first
  double unwalked = 0;             // chance that it hangs on none of them
};

struct AmpsFit {
  double measured_a = 0;
  double expected_a = 0;
  double sigma_a = 0;  // one standard deviation of the difference
};

struct VoltsFit {
  std::uint32_t lamp = 0;
  double measured_v = 0;
  double expected_v = 0;
  double sigma_v = 0;
};

struct RunTrace {
  std::vector<double> cable_chance;  // by loop_ohm_per_m
  double current_a = 0;              // of the lamps that most likely hang on it
  std::optional<AmpsFit> total;
  std::vector<AmpsFit> clamps;
  std::vector<VoltsFit> volts;
};

struct TraceAnswer {
  std::vector<LampTrace> lamps;
  std::vector<RunTrace> runs;
};

[[nodiscard]] TraceAnswer trace(const TraceProblem& problem);

}  // namespace duskwire::diagnosis
