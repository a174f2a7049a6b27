// SPDX-License-Identifier: Apache-2.0
// The crew's schedules as tables for a spreadsheet: SI units in every head, one row a thing.
#pragma once

#include <vector>

#include "base/table_data.hpp"
#include "study/crew.hpp"

namespace duskwire::study {

// "runs", "lamps", "cuts", "reels", "joints", "trenches", "sleeves", "aims", "picks", "readings". One without rows
// stays in the list, so that a spreadsheet that reads them always finds each.
[[nodiscard]] std::vector<TableData> crew_lists(const CrewSet& set);

}  // namespace duskwire::study
