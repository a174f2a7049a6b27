// SPDX-License-Identifier: Apache-2.0
// Where each place of the wiring stands in the diagram: one row a place, one lane a branch. The longest way on stays in
// the lane of its joint, so that a garden of n places never takes more than log2 n lanes.
#pragma once

#include <cstdint>
#include <vector>

#include "study/crew_runs.hpp"

namespace duskwire::paper {

inline constexpr std::uint32_t no_step = 0xffffffffu;

struct TreeRow {
  std::uint32_t run = 0;
  std::uint32_t step = no_step;  // of the run; none: the output itself
  std::uint32_t lane = 0;
  std::uint32_t parent_lane = 0;  // the same: straight on; less: a branch to the right
};

// A line down a lane, from a place to the last that hangs on it directly.
struct TreeLine {
  std::uint32_t lane = 0;
  std::uint32_t from_row = 0;
  std::uint32_t to_row = 0;
};

struct WiringTree {
  std::vector<TreeRow> rows;
  std::vector<TreeLine> lines;
  std::uint32_t lanes = 0;
};

// An output without cables is a row alone.
[[nodiscard]] WiringTree wiring_tree(const std::vector<study::CrewRun>& runs);

}  // namespace duskwire::paper
