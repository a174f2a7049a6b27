// SPDX-License-Identifier: Apache-2.0
// Lamps into runs, and runs into joints and cables: a hub where the lamps of a run stand close together, else a chain.
// Internal to the room: used by starter.cpp.
#pragma once

#include <string>
#include <vector>

#include "job/job.hpp"

namespace duskwire::study {

struct StarterRun {
  std::string id;                  // "R1"
  std::vector<std::size_t> lamps;  // indices into job.luminaires, in the order of the chain
  double load_va = 0;
  std::string trunk;  // id of the first cable, which starts at the output
};

// Gives every lamp an id and a position, and sorts the lamps of each zone into runs of a handy size.
[[nodiscard]] std::vector<StarterRun> plan_runs(job::Job& job);

struct StarterCables {
  std::string trunk;  // item
  std::string lead;   // item, from a hub to its lamps
};

// Adds the joints and cables of one run, fed from `output`.
void lay_run(job::Job& job, StarterRun& run, const std::string& output, const StarterCables& cables);

}  // namespace duskwire::study
