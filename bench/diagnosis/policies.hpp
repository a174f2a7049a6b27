// SPDX-License-Identifier: Apache-2.0
// Ways to choose the next reading, played against one truth until a place is singled out.
#pragma once

#include <vector>

#include "diagnosis/answer.hpp"
#include "faulty/truth.hpp"

namespace duskwire::bench {

enum class Policy { ours, half, random };  // half: the tool's fallback, see half_split.hpp

inline constexpr double singled_out = 0.9;  // a bracket likelier than that is

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
  std::vector<diagnosis::Observation> at_stop;  // of `taken`, when a bracket was singled out or readings ended
  double minutes = 0;                           // of `readings`
  double entropy_bit = 0;                       // of the place, before any reading
  double most_bit = 0;                          // that any one reading could say about it, at any step
  double first_bit = 0;                         // that any one could say before any reading
  double stop_bit = 0;                          // of `entropy_bit`, those that a stop at 90 % does not ask for
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

[[nodiscard]] bool was_read(const diagnosis::FaultProblem& problem, const diagnosis::Probe& probe);

// The likeliest bracket is opened at the stop; where it is sound, reading goes on without it, and so on to the fault.
struct Found {
  std::size_t readings = 0;  // of all
  std::size_t opened = 0;    // in vain
  double minutes = 0;        // of all, of opening the fault too
};
[[nodiscard]] Found pursue(const diagnosis::FaultProblem& plan, const faulty::Truth& truth, const Played& played,
                           Policy policy, std::size_t most, const faulty::Mischief& mischief, wiring::Dice& dice);

// Minutes of opening one hole after another by chance over effort, before anything is read.
[[nodiscard]] double digging_only_min(const diagnosis::FaultProblem& plan, const faulty::Truth& truth);

[[nodiscard]] Played play(const diagnosis::FaultProblem& plan, const faulty::Truth& truth, Policy policy,
                          std::size_t most, const faulty::Mischief& mischief, bool lamps_seen, wiring::Dice& dice);

}  // namespace duskwire::bench
