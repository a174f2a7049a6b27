// SPDX-License-Identifier: Apache-2.0
// The tables of the planner's bench, in Markdown on standard output.
#pragma once

#include <chrono>
#include <cstdint>
#include <ctime>
#include <string>
#include <vector>

#include "study/route.hpp"

namespace duskwire::bench {

// Seconds since it was made: of the clock, or, so that a busy machine does not change the answer, of this process's own
// share of the processor.
class Stopwatch {
 public:
  explicit Stopwatch(bool of_processor = false) : of_processor_(of_processor) {}
  [[nodiscard]] double s() const {
    if (of_processor_) return static_cast<double>(std::clock() - ticks_) / CLOCKS_PER_SEC;
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - begun_).count();
  }

 private:
  bool of_processor_;
  std::clock_t ticks_ = std::clock();
  std::chrono::steady_clock::time_point begun_ = std::chrono::steady_clock::now();
};

struct TableOptions {
  std::vector<std::uint32_t> sizes;  // lamps; empty: as usual for the table
  std::uint32_t seeds = 0;           // of each size; 0: as usual, fewer of the large ones
  std::uint32_t first_seed = 1;
  double seconds = 0;          // for the planner; 0: as usual for the size
  double proof_seconds = 600;  // of the processor, for each program of the optimum of one site
  bool of_processor = false;   // the planner's seconds count as the processor's
};

// Seeded lots: what the planner's wiring costs beside three habits.
void print_lots(const TableOptions& options);

// Small lawns: how far above the optimum the planner's wiring is.
void print_optima(const TableOptions& options);

}  // namespace duskwire::bench
