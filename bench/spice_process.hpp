// SPDX-License-Identifier: Apache-2.0
// The reduced network as a circuit for ngspice, and ngspice run on it as a whole process (start, parse, solve).
#pragma once

#include <string>
#include <vector>

#include "garden.hpp"

namespace duskwire::bench {

class SpiceProcess {
 public:
  explicit SpiceProcess(const ReducedGarden& garden);
  ~SpiceProcess();
  SpiceProcess(const SpiceProcess&) = delete;
  SpiceProcess& operator=(const SpiceProcess&) = delete;

  // Volts of the last slot as ngspice prints them; NaN if it did not run.
  double solve();

 private:
  std::string circuit_path_;
  std::string answer_path_;
};

}  // namespace duskwire::bench
