// SPDX-License-Identifier: Apache-2.0
// The tables of the planner's bench, in Markdown on standard output.
#pragma once

#include <chrono>
#include <cstdint>
#include <string>
#include <vector>

#include "study/route.hpp"

namespace duskwire::bench {

using Clock = std::chrono::steady_clock;

[[nodiscard]] inline double seconds_since(Clock::time_point begin) {
  return std::chrono::duration<double>(Clock::now() - begin).count();
}

struct TableOptions {
  std::vector<std::uint32_t> sizes;  // lamps; empty: as usual for the table
  std::uint32_t seeds = 0;           // of each size; 0: as usual, fewer of the large ones
  double seconds = 0;                // for the planner; 0: as usual for the size
  double proof_seconds = 600;        // for the optimum of one site
};

// Seeded lots: what the planner's wiring costs beside three habits.
void print_lots(const TableOptions& options);

// Small lawns: how far above the optimum the planner's wiring is.
void print_optima(const TableOptions& options);

}  // namespace duskwire::bench
