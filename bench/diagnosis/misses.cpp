// SPDX-License-Identifier: Apache-2.0
#include "misses.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "diagnosis/answer.hpp"
#include "diagnosis/beside_plan.hpp"
#include "physics.hpp"

namespace duskwire::bench {
namespace {

using diagnosis::Bracket;
using diagnosis::FaultProblem;
using diagnosis::Observation;

// Everything above ground read once, by a meter that errs but never lies: what
// any choice of readings is bounded by.
std::size_t rank_by_all(const FaultProblem& plan, const faulty::Truth& truth, wiring::Dice& dice) {
  FaultProblem problem = plan;
  problem.spread.wrong_reading = 0;
  problem.observations = faulty::see_lamps(truth);
  for (const diagnosis::Candidate& candidate : plan.candidates) {
    if (!needs_no_spade(candidate) || candidate.probe.quantity == diagnosis::Quantity::lamps_seen) continue;
    problem.observations.push_back(faulty::take(truth, candidate, {}, dice).front());
  }
  return rank_of_truth(problem, diagnosis::diagnose(problem, diagnosis::Depth::ranking), truth);
}

// Numbers above ground that the plan alone, with its errors and the meter's,
// calls clearly wrong.
int out_of_plan(const FaultProblem& plan, const faulty::Truth& truth, wiring::Dice& dice, int& all) {
  constexpr double clearly = 3;
  FaultProblem problem = plan;
  problem.observations.clear();
  for (const diagnosis::Candidate& one : plan.candidates) {
    if (!needs_no_spade(one) || diagnosis::is_state(one.probe.quantity)) continue;
    problem.observations.push_back(faulty::take(truth, one, {}, dice).front());
  }
  const std::vector<diagnosis::Compared> compared = diagnosis::beside_plan(problem);
  all = static_cast<int>(compared.size());
  return static_cast<int>(std::count_if(compared.begin(), compared.end(), [&](const diagnosis::Compared& one) {
    return std::abs(problem.observations[one.observation].value - one.predicted) > clearly * one.predicted_sigma;
  }));
}

void print_fault(const FaultProblem& plan, const faulty::Truth& truth, const Played& played, const Judged& judged,
                 wiring::Dice& dice) {
  static constexpr const char* blames[] = {"none", "physics", "choice", "model"};
  fmt::print("  {} ({}): {} lamps, place {}, rank {}, by all readings {};",
             judged.rank > 3 ? "missed" : "wrong though sure", blames[static_cast<int>(judged.blame)],
             plan.lamp_place.size(), truth.places.front(), judged.rank, judged.rank_all);
  for (const diagnosis::Fault& fault : truth.faults) {
    fmt::print(" kind {} of {} at {:.3f}", static_cast<int>(fault.kind), fault.element, fault.parameter);
  }
  int all = 0;
  const int out = out_of_plan(plan, truth, dice, all);
  fmt::print("; {} of {} readings out of three standard deviations of the plan; read", out, all);
  for (const Observation& one : played.taken) {
    if (one.probe.quantity == diagnosis::Quantity::lamp_state && one.seen == diagnosis::SeenLamp::lit) continue;
    fmt::print(" {}:{}={:.3f}", static_cast<int>(one.probe.quantity), one.probe.index,
               diagnosis::is_state(one.probe.quantity) ? static_cast<double>(one.seen) + one.value : one.value);
  }
  fmt::print("\n");
}

void print_above(const FaultProblem& plan, const Bracket& above, double sigmas) {
  const diagnosis::Place& place = plan.places[above.places.front().place];
  fmt::print(
      "    above it: place {} of kind {} of {} with {:.1f} %, {:.2f} "
      "standard deviations apart\n",
      above.places.front().place, static_cast<int>(place.kind), place.index, 100 * above.chance, sigmas);
}

}  // namespace

Judged judge(const FaultProblem& plan, const faulty::Truth& truth, const Played& played, std::size_t readings,
             bool told, wiring::Dice& dice) {
  constexpr double noise = 1;            // standard deviation
  constexpr std::size_t looked_at = 40;  // what ranks below that is no near miss
  constexpr std::size_t named = 3;
  Judged judged;
  judged.rank = judged.rank_apart = judged.rank_all = rank_after(played, readings);
  if (judged.rank == 1) return judged;
  judged.rank_all = rank_by_all(plan, truth, dice);
  std::vector<double> sigmas;
  const auto& above = played.above[std::min(readings, played.above.size() - 1)];
  if (truth.faults.size() == 1) {
    Physics physics(plan);
    for (std::size_t k = 0; k < std::min(looked_at, above.size()); ++k) {
      sigmas.push_back(physics.apart(truth.faults.front(), truth.places.front(), above[k]));
      judged.rank_apart -= sigmas.back() < noise;
    }
  }
  const bool surely_wrong = played.singled_out && !played.right;
  if (judged.rank <= named && !(told && surely_wrong)) return judged;
  if (judged.rank > named)
    judged.blame = judged.rank_apart <= named ? Blame::physics
                   : judged.rank_all <= named ? Blame::choice
                                              : Blame::model;
  if (!told) return judged;
  print_fault(plan, truth, played, judged, dice);
  for (std::size_t k = 0; k < std::min<std::size_t>(4, sigmas.size()); ++k) print_above(plan, above[k], sigmas[k]);
  return judged;
}

}  // namespace duskwire::bench
