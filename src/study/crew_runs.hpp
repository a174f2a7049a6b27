// SPDX-License-Identifier: Apache-2.0
// The runs as a crew walks them: from an output outward, each cable once, with what hangs at its far end and the volts
// and amps that the report predicts there. Every cable and every lamp of the job stands in exactly one run.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "job/job.hpp"
#include "study/report.hpp"

namespace duskwire::study {

struct CrewLamp {
  std::string id;
  std::string name;
  std::string item;
  std::string title;
  job::LuminaireKind kind = job::LuminaireKind::path;
  std::string zone;
  std::string at;     // joint that its lead is spliced to; empty where a cable ends at it
  double lead_m = 0;  // its own lead
  double va = 0;      // rated, with dimming: what the report counts
  double nominal_v = 0;
  double worst_low_v = 0;
  double worst_high_v = 0;
  double window_min_v = 0;
  double window_max_v = 0;
  double current_a = 0;
};

// One cable, in walking order.
struct CrewStep {
  std::string cable;  // tag
  std::string item;
  std::string title;
  std::string from;  // the end that is nearer to the transformer along this walk
  std::string to;
  std::string to_name;
  std::uint32_t level = 0;           // cables before it on the way from the output
  std::optional<double> route_m;     // absent where the job gives neither length nor path
  double cut_m = 0;                  // route and slack at both ends
  std::optional<double> depth_m;     // cover
  std::string sleeve;                // id in the plan
  double current_a = 0;              // nominal
  double to_v = 0;                   // nominal, at the far end
  bool closes_loop = false;          // its far end was reached by another way already
  std::vector<std::uint32_t> lamps;  // into CrewRun::lamps: at the far end
};

struct CrewRun {
  std::string output;  // empty: what no output feeds
  std::string transformer;
  std::string transformer_name;
  double tap_v = 0;
  double terminal_v = 0;
  double current_a = 0;
  double limit_a = 0;
  double va = 0;       // sum of its lamps
  double route_m = 0;  // sum of its cables
  double cut_m = 0;
  std::vector<CrewStep> steps;
  std::vector<CrewLamp> lamps;  // in the order of the walk
};

// In the order of the job's outputs; last what nothing feeds, where there is such. An output without cables is a run
// without steps.
[[nodiscard]] std::vector<CrewRun> crew_runs(const job::Job& job, const job::Catalogue& stock, const Report& report);

}  // namespace duskwire::study
