// SPDX-License-Identifier: Apache-2.0
// A table of lamps (CSV) to luminaires: what a contractor types into a spreadsheet on site. Columns:
// docs/job-format.md.
#pragma once

#include <string_view>
#include <vector>

#include "base/problem.hpp"
#include "job/job.hpp"

namespace duskwire::formats {

struct ReadLamps {
  std::vector<job::Luminaire> lamps;  // every row that could be read; ids may be empty
  Problems problems;                  // pointers: "line 3, column 2"
};

// Items are looked up in `stock`.
[[nodiscard]] ReadLamps read_lamps_csv(std::string_view text, const job::Catalogue& stock);

}  // namespace duskwire::formats
