// SPDX-License-Identifier: Apache-2.0
// Half-splitting, the procedure that needs no computing: an ideal one that is never misled, and one as it is done with
// a meter that errs and a plan that is not the garden.
#pragma once

#include <utility>
#include <vector>

#include "diagnosis/answer.hpp"
#include "faulty/truth.hpp"

namespace duskwire::bench {

// A tree of points: 0 the supply, then transformers, outputs, nodes; each place sits at one of them, a cable at its far
// end. Loops by their shortest way.
class Points {
 public:
  explicit Points(const diagnosis::FaultProblem& plan);

  [[nodiscard]] std::size_t count() const { return up_.size(); }
  [[nodiscard]] std::size_t of(std::uint32_t place) const { return holder_[place]; }
  [[nodiscard]] bool beyond(std::size_t point, std::size_t at) const;  // `at` is `point`, or lies beyond it
  // Volts to be read there without digging, by candidate; none where there is no such reading.
  [[nodiscard]] std::uint32_t volts(std::size_t point) const { return volts_[point]; }
  // Each bracket by its point and a place that stands for it.
  using Bracket = std::pair<std::size_t, std::uint32_t>;
  [[nodiscard]] const std::vector<Bracket>& brackets() const { return brackets_; }

 private:
  std::vector<std::size_t> up_;
  std::vector<std::size_t> holder_;
  std::vector<std::uint32_t> volts_;
  std::vector<Bracket> brackets_;
};

// Readings that half-splitting takes if it is never misled: each answers whether the fault lies at or beyond a point,
// buried joints too, and the point is the one that leaves the fewest brackets at worst.
[[nodiscard]] std::size_t ideal_half_split(const Points& points, const faulty::Truth& truth);

struct Practised {
  std::size_t readings = 0;
  std::size_t opened = 0;  // in vain
  double minutes = 0;      // of both, and of opening the fault
  bool misled = false;
};

// As it is done: volts where the fewest brackets are left at worst, above ground, against what the plan foretells: out
// of two standard deviations of plan and meter says that the fault lies on the way there, within them that it does not.
// A lamp that is dark on sound volts is the fault; dead volts at lugs send a look at the device, and a tripped one is
// followed by lifting cables, which tells the side of a short truly. What is left is opened one by one, nearest the
// supply first, each in vain counted; where all was in vain, what is not open yet is split again, this time ideally.
// `look_first`: one look at all lamps leaves what all dark lamps and no lit one hang on.
[[nodiscard]] Practised practised_half_split(const diagnosis::FaultProblem& plan, const Points& points,
                                             const faulty::Truth& truth, bool look_first,
                                             const faulty::Mischief& mischief, wiring::Dice& dice);

// The tool's fallback: volts, not read yet, where half of the chance lies beyond. None where no reading splits it.
[[nodiscard]] std::uint32_t half_of_chance(const diagnosis::FaultProblem& problem, const Points& points,
                                           const diagnosis::Answer& answer);

}  // namespace duskwire::bench
