// SPDX-License-Identifier: Apache-2.0
// Outcomes: what a reading would show, world by world, laid into bins of its scale, and what that says of the place.
// Internal to the room.
#pragma once

#include <vector>

#include "diagnosis/answer.hpp"

namespace duskwire::diagnosis {

// One thing that the reading may show if `target` is true.
struct Foretold {
  std::uint32_t target = 0;  // 0 .. target_count - 1
  double share = 0;          // of all, summing up to 1
  double value = 0;
  double sigma = 0;
};

class OutcomeTable {
 public:
  OutcomeTable(std::vector<Foretold> foretold, std::uint32_t target_count);

  // Mutual information of reading and target.
  [[nodiscard]] double information_bit() const;

  // Stretches of the scale that point to the same target, likeliest first, `most` of them.
  struct Stretch {
    double low = 0;
    double high = 0;
    double share = 0;
    std::uint32_t best_target = 0;
    std::vector<double> by_target;  // shares, summing up to 1
  };
  [[nodiscard]] std::vector<Stretch> stretches(std::size_t most) const;

 private:
  struct Cell {
    std::uint32_t target = 0;
    std::uint32_t bin = 0;
    double share = 0;
  };
  void lay(const Foretold& one, std::vector<double>& row, std::size_t& first, std::size_t& last) const;

  std::vector<Cell> cells_;  // where anything lies
  std::vector<double> of_target_;
  std::vector<double> of_bin_;
  double low_ = 0;
  double width_ = 1;
};

}  // namespace duskwire::diagnosis
