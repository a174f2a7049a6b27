// SPDX-License-Identifier: Apache-2.0
// Outcomes: what a reading would show, world by world, laid into bins of its scale, and what that says of the place.
// Bins lie only where something is foretold and are as fine as the readings there: an ohmmeter that shows 0.2 or 0.4
// ohm or no end is told apart at both ends of its scale. Internal to the room.
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
  std::uint32_t piece = 0;  // of what is supposed: the same in what every reading foretells
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
  struct Band {  // of the scale, where something is foretold
    double low = 0;
    double high = 0;
    double width = 1;       // of a bin
    std::size_t first = 0;  // bin
    std::size_t count = 0;
  };
  void lay_bands(const std::vector<Foretold>& foretold);
  [[nodiscard]] const Band& band_of(double value) const;
  [[nodiscard]] const Band& band_of_bin(std::size_t bin) const;
  void lay(const Foretold& one, std::vector<double>& row, std::size_t& first, std::size_t& last) const;

  std::vector<Cell> cells_;  // where anything lies
  std::vector<double> of_target_;
  std::vector<double> of_bin_;
  std::vector<Band> bands_;  // by value
};

}  // namespace duskwire::diagnosis
