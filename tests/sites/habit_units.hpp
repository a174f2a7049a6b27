// SPDX-License-Identifier: Apache-2.0
// Transformers for the runs of a habit: what is hung at each place, and which run leaves which output.
#pragma once

#include <vector>

#include "sites/habit_trees.hpp"
#include "sites/wiring_sketch.hpp"

namespace duskwire::sites {

struct RunNeeds {
  double losses = 1;   // what cables lose, as a factor on the rated VA
  double cable_a = 0;  // no output is on a larger device than protects the cable
};

// Fills units and outputs of the sketch and gives the output of each run; nothing where no unit takes a run. Headroom
// as in the practice, the highest tap that no lamp finds too high, the cheapest units.
[[nodiscard]] std::vector<std::size_t> hang_units(const std::vector<HabitRun>& runs, const RunNeeds& needs,
                                                  const job::Job& site, const job::Catalogue& stock,
                                                  const estimate::InstallRates& rates, WiringSketch& sketch);

// The smallest device that carries this with the headroom of the practice.
[[nodiscard]] double device_a(double current_a, const job::Practice& practice);

// What one output may feed through a cable of that ampacity, of the largest transformer.
[[nodiscard]] double most_va_of_a_run(double cable_a, const job::Job& site, const job::Catalogue& stock);

}  // namespace duskwire::sites
