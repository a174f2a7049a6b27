// SPDX-License-Identifier: Apache-2.0
// Runs ngspice as a process on circuits written by ngspice_netlist and reads its answers back at full precision
// (its ASCII raw file holds 16 digits).
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "base/result.hpp"

namespace duskwire::electrical::testing {

struct SpiceJob {
  std::string netlist;
  std::uint32_t node_count = 0;
  int steps = 20;  // of the walk from (nearly) no load to full load; 1: only the last, from the nodeset if there is one
};

// Volts of each node (conductor A less conductor B) per job, or why there are none. One process for all jobs.
[[nodiscard]] std::vector<Result<std::vector<double>>> run_ngspice(const std::vector<SpiceJob>& jobs);

}  // namespace duskwire::electrical::testing
