// SPDX-License-Identifier: Apache-2.0
// What of the bench is run: all of it by default, parts of it while one works on them.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace duskwire::bench {

struct Options {
  int scale = 4;                     // quarters of 64 faults a setting
  int small_cases = 500;             // 0: none
  bool time = true;                  // of one diagnosis
  bool faults = true;                // the settings
  bool misses = false;               // each fault that is not among the first three, with the reason
  bool hindsight = false;            // the fewest readings that could have singled each fault out
  int faults_each = 0;               // of each shape and size; 0: as the scale says
  std::string setting;               // begins with this; empty: all
  std::string shape;                 // chain, tee, hub, loop; empty: all
  std::vector<std::uint32_t> lamps;  // empty: all
  bool opponents = true;
};

// Ends the program after --help and on a word that it does not know.
[[nodiscard]] Options options_of(int count, char** arguments);

}  // namespace duskwire::bench
