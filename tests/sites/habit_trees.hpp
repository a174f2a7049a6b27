// SPDX-License-Identifier: Apache-2.0
// The shapes of the three habits: which lamp hangs on which, run by run.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "sites/baselines.hpp"
#include "sites/site_ways.hpp"

namespace duskwire::sites {

struct HungLamp {
  std::size_t lamp = 0;
  std::optional<std::size_t> on;  // index in the run, before this one; absent: the cable comes from the transformer
  SiteRoute route;
};

struct HabitRun {
  std::size_t place = 0;
  double load_va = 0;
  std::vector<HungLamp> lamps;
};

// Each lamp hangs on the nearest of these places; runs carry no more than `most_va`, hubs no more than `cluster` lamps.
// Empty where a lamp cannot be reached.
[[nodiscard]] std::vector<HabitRun> habit_runs(Habit habit, const job::Job& site, SiteWays& ways,
                                               const std::vector<std::size_t>& places, double most_va,
                                               std::size_t cluster);

}  // namespace duskwire::sites
