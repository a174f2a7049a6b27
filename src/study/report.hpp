// SPDX-License-Identifier: Apache-2.0
// Report: the answer to "what will each lamp really see, and is it sound?", object by object with the job's own ids.
// SI numbers; the edges turn them into the user's units.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "electrical/solution.hpp"
#include "job/job.hpp"
#include "study/finding.hpp"

namespace duskwire::study {

struct LampReport {
  std::string id;
  double nominal_v = 0;
  double worst_low_v = 0;  // over the corners
  double worst_high_v = 0;
  std::string worst_low_corner;  // words: "mains low, cable hot, long"
  std::string worst_high_corner;
  double window_min_v = 0;
  double window_max_v = 0;
  double current_a = 0;                                            // nominal
  electrical::LampState state = electrical::LampState::off;        // nominal
  electrical::LampState worst_state = electrical::LampState::off;  // at worst_low_v, or over at worst_high_v
  double light = 0;                                                // share of full light, nominal
  std::string output;                                              // the output that feeds it; empty: none
  double distance_m = 0;                                           // along the cables from the transformer
};

struct CableReport {
  std::string id;
  double length_m = 0;   // with slack: what the current runs through
  double current_a = 0;  // the larger of both conductors, nominal
  double worst_current_a = 0;
  double drop_v = 0;  // both conductors, nominal
  double loss_w = 0;
  double from_v = 0;
  double to_v = 0;
  std::string output;
};

struct OutputReport {
  std::string id;
  std::string transformer;
  double tap_v = 0;
  double terminal_v = 0;  // nominal
  double current_a = 0;
  double worst_current_a = 0;
  double limit_a = 0;
  double load_share = 0;     // worst current over limit
  double lowest_lamp_v = 0;  // worst over its lamps and corners
  double highest_lamp_v = 0;
  std::uint32_t lamp_count = 0;
  double far_short_a = 0;    // least bolted-short current at any point of this output
  std::string far_short_at;  // joint or luminaire id
};

struct TransformerReport {
  std::string id;
  double lamp_va = 0;  // sum of the lamps' rated VA
  double load_va = 0;  // delivered at the taps, nominal
  double worst_load_va = 0;
  double rating_va = 0;
  double headroom_va = 0;    // rating less worst load
  double load_share = 0;     // worst load over rating
  double copper_loss_w = 0;  // winding resistance
  double core_loss_w = 0;
  double cable_loss_w = 0;
  double input_w = 0;  // estimate from the mains: lamps' watts + losses
};

struct CornerReport {
  std::string name;  // "nominal", "mains low, cable hot, long", ...
  double mains_factor = 1;
  double cable_c = 20;
  double length_factor = 1;
  double lowest_v = 0;
  std::string lowest_lamp;
  double highest_v = 0;
  std::string highest_lamp;
  bool converged = true;
};

struct MarginReport {
  double load_factor = 0;  // nominal; 0 if a lamp is out of regulation already
  bool load_beyond_cap = false;
  std::string load_first_lamp;
  double length_factor = 0;
  bool length_beyond_cap = false;
  std::string length_first_lamp;
};

struct ShortReport {
  std::string place;  // joint or luminaire id
  std::string output;
  double current_a = 0;  // seen by the output's protection: mains low, cable hot, long
  double limit_a = 0;
};

struct Report {
  std::vector<LampReport> lamps;
  std::vector<CableReport> cables;
  std::vector<OutputReport> outputs;
  std::vector<TransformerReport> transformers;
  std::vector<CornerReport> corners;  // nominal first
  std::vector<ShortReport> shorts;
  MarginReport margin;
  Findings findings;  // errors first
  double lamp_va = 0;
  bool sound = false;  // no finding of severity error
};

}  // namespace duskwire::study
