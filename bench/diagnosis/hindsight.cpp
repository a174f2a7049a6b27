// SPDX-License-Identifier: Apache-2.0
#include "hindsight.hpp"

#include <algorithm>
#include <vector>

#include "physics.hpp"
#include "policies.hpp"

namespace duskwire::bench {
namespace {

using diagnosis::FaultProblem;
using diagnosis::Observation;
using Readings = std::vector<std::vector<Observation>>;

Readings take_all(const FaultProblem& plan, const faulty::Truth& truth, const faulty::Mischief& mischief,
                  std::uint64_t seed) {
  wiring::Dice dice(seed);
  Readings taken;
  for (const diagnosis::Candidate& one : plan.candidates) {
    if (needs_no_spade(one)) taken.push_back(faulty::take(truth, one, mischief, dice));
  }
  return taken;
}

// Of the true bracket; 0 where another is likelier.
double chance_of_truth(FaultProblem& problem, const faulty::Truth& truth) {
  const diagnosis::Answer answer = diagnosis::diagnose(problem, diagnosis::Depth::ranking);
  const diagnosis::Bracket& top = answer.brackets.front();
  return leads_to(problem, top, truth) ? top.chance : 0;
}

void put(FaultProblem& problem, const std::vector<Observation>& one) {
  problem.observations.insert(problem.observations.end(), one.begin(), one.end());
}

}  // namespace

int fewest_readings(const FaultProblem& plan, const faulty::Truth& truth, const faulty::Mischief& mischief,
                    std::uint64_t seed) {
  FaultProblem problem = plan;
  if (chance_of_truth(problem, truth) > singled_out) return 0;
  const Readings taken = take_all(plan, truth, mischief, seed);
  std::vector<std::pair<double, std::size_t>> alone;
  for (std::size_t k = 0; k < taken.size(); ++k) {
    problem.observations = taken[k];
    alone.emplace_back(chance_of_truth(problem, truth), k);
    if (alone.back().first > singled_out) return 1;
  }
  // What tells most alone first: a pair that does is found soon.
  std::stable_sort(alone.begin(), alone.end(), [](const auto& x, const auto& y) { return x.first > y.first; });
  for (std::size_t far = 1; far < alone.size(); ++far) {
    for (std::size_t near = 0; near < far; ++near) {
      problem.observations = taken[alone[near].second];
      put(problem, taken[alone[far].second]);
      if (chance_of_truth(problem, truth) > singled_out) return 2;
    }
  }
  return 3;
}

}  // namespace duskwire::bench
