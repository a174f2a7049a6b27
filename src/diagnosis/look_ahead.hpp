// SPDX-License-Identifier: Apache-2.0
// Look-ahead: what a reading is worth together with the best one after it. Internal to the room.
#pragma once

#include <vector>

#include "diagnosis/outcomes.hpp"

namespace duskwire::diagnosis {

// A reading that might be taken, with all that it may show.
struct Option {
  double cost_min = 0;
  double information_bit = 0;
  std::vector<Foretold> foretold;
};

// Net gain in bits of each of the first `firsts` options: what it and the best option after it are expected to tell,
// less what their minutes would tell at the rate of the best single option. `pieces`: how many different
// Foretold::piece there are.
[[nodiscard]] std::vector<double> two_step_gain_bit(const std::vector<Option>& options, std::size_t firsts,
                                                    std::uint32_t targets, std::size_t pieces);

}  // namespace duskwire::diagnosis
