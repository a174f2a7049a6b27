// SPDX-License-Identifier: Apache-2.0
// The trench of a whole job: metres and minutes, each stretch dug once, however many cables lie in it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "estimate/installed.hpp"
#include "job/job.hpp"

namespace duskwire::estimate {

// What one cable meets of one kind of ground. The four lengths together are its route there.
struct TrenchStretch {
  std::string cable;
  std::optional<job::GroundKind> ground;  // roots count before what grows over them; empty: not on the plan
  double dug_m = 0;
  double shared_m = 0;    // in a trench that an earlier cable of the job has opened
  double pulled_m = 0;    // through a sleeve
  double fastened_m = 0;  // along a building or below a deck
  double minutes = 0;
};

struct TrenchWork {
  double dug_m = 0;  // what is fastened to a building or a deck is not dug
  double minutes = 0;
  std::vector<TrenchStretch> stretches;  // by cable in the order of the job, each kind of ground once
};

// Cables in the order of the job: the first one digs.
[[nodiscard]] TrenchWork trench_work(const job::Job& job, const InstallRates& rates,
                                     const std::vector<std::string>& sleeves_to_lay);

}  // namespace duskwire::estimate
