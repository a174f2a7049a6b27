// SPDX-License-Identifier: Apache-2.0
// Truth: a garden that is not quite as planned, with faults in it, that answers readings with a meter's error.
#pragma once

#include "diagnosis/fault.hpp"
#include "diagnosis/problem.hpp"
#include "wiring/dice.hpp"

namespace duskwire::faulty {

struct Mischief {
  double wrong_reading = 0;  // chance that a reading is any other number
  double length_off = 0;     // each cable longer or shorter by this share, beyond what the plan's spread allows for
};

struct Truth {
  diagnosis::FaultProblem problem;  // lengths, lamps, mains as they really are
  std::vector<diagnosis::Fault> faults;
  std::vector<std::uint32_t> places;
  std::vector<bool> flickering;  // by load: a bad joint or water makes lamps flicker while they are looked at
};

// Faults drawn by their prior chances, parameters from their priors; only faults that some candidate reading would
// show by more than three standard deviations. `hidden` counts those thrown away.
[[nodiscard]] Truth make_truth(const diagnosis::FaultProblem& plan, std::size_t fault_count, const Mischief& mischief,
                               wiring::Dice& dice, std::size_t* hidden = nullptr);

// Two observations where a lamp stands beside: the meter's, and whether it is lit.
[[nodiscard]] std::vector<diagnosis::Observation> take(const Truth& truth, const diagnosis::Candidate& candidate,
                                                       const Mischief& mischief, wiring::Dice& dice);

// What a walk shows: each lamp lit, dim or dark.
[[nodiscard]] std::vector<diagnosis::Observation> see_lamps(const Truth& truth);

}  // namespace duskwire::faulty
