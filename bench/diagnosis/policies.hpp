// SPDX-License-Identifier: Apache-2.0
// Ways to choose the next reading, played against one truth until a place is singled out.
#pragma once

#include <vector>

#include "diagnosis/answer.hpp"
#include "faulty/truth.hpp"

namespace duskwire::bench {

enum class Policy { ours, random };

struct Played {
  std::vector<std::size_t> rank;  // of the true bracket after 0, 1, 2 ... readings; 1 is first
  std::size_t readings = 0;       // until some bracket was likelier than 90 %, or `most`
  bool singled_out = false;
  bool nothing_left = false;                    // to be read above ground, though no bracket was singled out
  bool right = false;                           // and it was the true one
  std::vector<std::pair<double, bool>> claims;  // chance of each bracket after each reading, and whether it held
  int sets = 0;                                 // of 90 % stated after each reading
  double sets_held = 0;
  std::vector<std::vector<diagnosis::Bracket>> above;  // what ranked above the true one, after 0, 1, 2 ... readings
  std::vector<diagnosis::Observation> taken;
  double entropy_bit = 0;  // of the place, before any reading
  double most_bit = 0;     // that any one reading could say about it, at any step
};

// After so many readings, or after the last where fewer were taken.
[[nodiscard]] std::size_t rank_after(const Played& played, std::size_t readings);

// Whether a bracket sends the spade to the fault: it is the very span, lamp or device, or its likeliest place is a
// splice in the joint in which the faulty splice sits.
[[nodiscard]] bool leads_to(const diagnosis::FaultProblem& problem, const diagnosis::Bracket& bracket,
                            const faulty::Truth& truth);

// The first bracket that leads to the fault; 1 is the likeliest.
[[nodiscard]] std::size_t rank_of_truth(const diagnosis::FaultProblem& problem, const diagnosis::Answer& answer,
                                        const faulty::Truth& truth);

[[nodiscard]] Played play(const diagnosis::FaultProblem& plan, const faulty::Truth& truth, Policy policy,
                          std::size_t most, const faulty::Mischief& mischief, bool lamps_seen, wiring::Dice& dice);

// Readings that half-splitting takes if it is never misled: each answers whether the fault lies at or beyond a point of
// the plan (supply, transformer, output, joint or lamp with the cable that leads to it), and the point is the one that
// leaves the fewest brackets at worst.
[[nodiscard]] std::size_t ideal_half_split(const diagnosis::FaultProblem& plan, const faulty::Truth& truth);

}  // namespace duskwire::bench
