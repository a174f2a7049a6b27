// SPDX-License-Identifier: Apache-2.0
// Trace: the wiring of a garden that came without a plan. From lamps on the plan, ways that a locator followed, what a
// clamp and a meter read and what went dark when a run was lifted: which lamp hangs on which run, how sure that is, and
// the rough network as an ordinary job. SI numbers beside sentences in the job's units.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/problem.hpp"
#include "geometry/point.hpp"
#include "job/job.hpp"

namespace duskwire::study {

struct WalkedWay {
  geometry::Polyline path;  // the first of a run from the transformer, each other one from an earlier one
};

struct WalkedClamp {
  geometry::Point2 at;
  double current_a = 0;  // in one conductor
};

struct WalkedRun {
  std::string id;
  std::string output;  // that it leaves
  std::string item;    // cable item, where the jacket told; empty: not known
  std::optional<double> current_a;
  std::vector<WalkedWay> ways;
  std::vector<WalkedClamp> clamps;
  std::vector<std::string> went_dark;   // luminaires, while this run alone was lifted
  std::vector<std::string> stayed_lit;  // the same
};

struct TraceRequest {
  std::optional<std::uint32_t> visit;  // whose volts count too, by index
  std::vector<WalkedRun> runs;
  std::vector<job::Reading> readings;  // volts at outputs and luminaires
};

struct PlaceFound {
  std::string run;
  double x_m = 0;
  double y_m = 0;
  double from_transformer_m = 0;  // along the way walked
  double lead_m = 0;
  double chance = 0;
};

struct LampFound {
  std::string id;
  std::string text;  // "Oak, left (F4): on run R1, 12 m from the transformer"
  std::string run;   // the likeliest; empty: none that was walked
  double chance = 0;
  std::vector<PlaceFound> places;
};

struct CableFound {
  std::string item;
  std::string title;
  double chance = 0;
};

// A cable of the rough network.
struct PartFound {
  std::string cable;
  std::string from;
  std::string to;
  double length_m = 0;
  double current_a = 0;
  double chance = 0;  // that it feeds any of the lamps drawn beyond it
  double end_chance =
      0;  // that any of the lamps drawn at its far end hangs there; where ways part that of what is beyond
};

struct RunFound {
  std::string id;
  std::vector<std::string> lamps;
  std::vector<CableFound> cables;  // likeliest first
  std::vector<PartFound> parts;
  std::optional<double> measured_a;
  double expected_a = 0;  // of the lamps found on it
  double chance = 0;      // that each of them hangs on it
};

struct TraceStep {
  std::string run;
  std::string text;  // "Lift run R2 ..."
  double information_bit = 0;
};

struct Traced {
  Problems problems;  // of the request; with an error among them nothing else is there
  std::string headline;
  std::vector<LampFound> lamps;
  std::vector<RunFound> runs;
  std::vector<std::string> remarks;  // what does not fit, and what was left out
  std::vector<TraceStep> next;       // what would tell most
  std::vector<std::string> rests_on;
  std::optional<job::Job> job;  // with the rough network drawn in
};

[[nodiscard]] Traced trace(const job::Job& job, const job::Catalogue& stock, const TraceRequest& request);

}  // namespace duskwire::study
