// SPDX-License-Identifier: Apache-2.0
// What a meter should read when the job is first lit, place by place in walking order, and how far off is still sound.
//
// Mains are never exactly nominal, so a place is judged by its drop: the volts read at the output's terminals less
// those read at the place. That takes the mains and the transformer out of the question. Tolerance of a drop: the
// farthest that it strays over all corners with every lamp on (mains, cable temperature, length), and what the meter
// may be off.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "job/job.hpp"
#include "study/crew_runs.hpp"

namespace duskwire::study {

// How far off a hand-held true-RMS meter may be on AC, and a clamp. Common practice, no source: go by the meter's
// paper.
struct MeterAccuracy {
  double volts_pct = 1.0;
  double volts_v = 0.03;  // some digits of a display in hundredths
  double amps_pct = 2.0;
  double amps_a = 0.05;
};

enum class CommissioningKind : std::uint8_t { joint = 0, lamp = 1 };

struct CommissioningRow {
  CommissioningKind kind = CommissioningKind::joint;
  std::string id;
  std::string name;
  std::optional<job::JointKind> joint;  // as the wires make it
  double nominal_v = 0;
  double drop_v = 0;       // from the output's terminals, nominal
  double tolerance_v = 0;  // of the drop
  std::uint32_t level = 0;
  // Below this it is outside its window whatever the drop says; 0: none known. Lamps only.
  double window_min_v = 0;
  double window_max_v = 0;
};

struct MainsStep {
  double mains_v = 0;
  double terminal_v = 0;  // expected at the terminals, every lamp on
};

struct CommissioningOutput {
  std::string output;
  std::string transformer;
  double tap_v = 0;
  double terminal_v = 0;  // nominal
  double terminal_tolerance_v = 0;
  std::vector<MainsStep> by_mains;  // ascending, nominal in the middle
  double current_a = 0;
  double tolerance_a = 0;
  double limit_a = 0;
  std::vector<CommissioningRow> rows;
};

struct CommissioningSheet {
  double mains_v = 0;  // nominal
  MeterAccuracy meter;
  std::vector<CommissioningOutput> outputs;
};

// `runs` of the same job: crew_runs().
[[nodiscard]] CommissioningSheet commissioning_sheet(const job::Job& job, const std::vector<CrewRun>& runs,
                                                     const MeterAccuracy& meter = {});

}  // namespace duskwire::study
