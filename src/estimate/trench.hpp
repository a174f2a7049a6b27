// SPDX-License-Identifier: Apache-2.0
// The trench of a whole job: metres and minutes, each stretch dug once, however many cables lie in it.
#pragma once

#include <string>
#include <vector>

#include "estimate/installed.hpp"
#include "job/job.hpp"

namespace duskwire::estimate {

struct TrenchWork {
  double dug_m = 0;  // what is fastened to a building or a deck is not dug
  double minutes = 0;
};

// Cables in the order of the job: the first one digs.
[[nodiscard]] TrenchWork trench_work(const job::Job& job, const InstallRates& rates,
                                     const std::vector<std::string>& sleeves_to_lay);

}  // namespace duskwire::estimate
