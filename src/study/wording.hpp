// SPDX-License-Identifier: Apache-2.0
// Quantities as the sentences of findings say them: in the job's display units, short, and never so short that a value
// and the limit that it misses by a hair read the same.
#pragma once

#include <string>
#include <vector>

#include "job/catalogue.hpp"
#include "job/site.hpp"

namespace duskwire::study {

// How one kind of quantity is written: SI value over si_per_unit, at most so many decimals.
struct WordedUnit {
  double si_per_unit = 1;
  const char* suffix = "";
  int decimals = 0;
};

[[nodiscard]] WordedUnit distance_unit(job::DisplayUnits units);  // "3 m" or "10 ft"
[[nodiscard]] WordedUnit depth_unit(job::DisplayUnits units);     // depths, heights, slack: "150 mm" or "6 in"
inline constexpr WordedUnit volt_unit{1, "V", 2};
inline constexpr WordedUnit ampere_unit{1, "A", 1};
inline constexpr WordedUnit volt_ampere_unit{1, "VA", 0};
inline constexpr WordedUnit percent_unit{1, "%", 0};

// Trailing zeros are left out: "12.5 V", "25 A".
[[nodiscard]] std::string worded(double value, const WordedUnit& unit, int more_decimals = 0);

struct WordedPair {
  std::string measured;
  std::string limit;
};
// Both with as many decimals as it takes to tell them apart.
[[nodiscard]] WordedPair worded_apart(double measured, double limit, const WordedUnit& unit);

// Size of one conductor as it is sold: "2.5 mm²", "12 AWG"; where units are metric "12 AWG (3.31 mm²)".
[[nodiscard]] std::string conductor_words(double area_mm2, job::DisplayUnits units);
[[nodiscard]] std::string conductor_words(const job::CableItem& item, job::DisplayUnits units);

// "F3" or "F3 (Oak, left)".
[[nodiscard]] std::string called(const std::string& id, const std::string& name);

// "C1", "C1 and C2", "C1, C2, C3 and 4 more".
[[nodiscard]] std::string listed(const std::vector<std::string>& names);

// "1 wire", "3 wires".
[[nodiscard]] std::string counted(std::size_t count, const std::string& noun);

}  // namespace duskwire::study
