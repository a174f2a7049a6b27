// SPDX-License-Identifier: Apache-2.0
#include "physics.hpp"

#include <algorithm>
#include <cmath>

#include "diagnosis/state.hpp"

namespace duskwire::bench {
namespace {

using diagnosis::Candidate;
using diagnosis::Fault;
using diagnosis::FaultProblem;
using diagnosis::Group;

FaultProblem above_ground(const FaultProblem& plan) {
  FaultProblem problem = plan;
  problem.observations.clear();
  std::erase_if(problem.candidates, [](const Candidate& one) { return !needs_no_spade(one); });
  return problem;
}

bool holds(const diagnosis::Bracket& bracket, std::uint32_t place) {
  return std::any_of(bracket.places.begin(), bracket.places.end(),
                     [place](const diagnosis::PlaceChance& one) { return one.place == place; });
}

// Values of a parameter: over its whole range, then closer about the best so far.
std::vector<double> values(const Group& group, double centre, double reach) {
  if (!diagnosis::has_parameter(group.kind)) return {group.trials.front()};
  constexpr int steps = 16;
  const diagnosis::Range range = diagnosis::parameter_range(group.kind);
  const double low = std::max(std::log(range.low), std::log(centre) - reach);
  const double high = std::min(std::log(range.high), std::log(centre) + reach);
  std::vector<double> found;
  for (int k = 0; k <= steps; ++k) found.push_back(std::exp(low + (high - low) * k / steps));
  return found;
}

}  // namespace

bool needs_no_spade(const Candidate& candidate) {
  constexpr double dug_min = 10;
  return candidate.effort_min < dug_min;
}

Physics::Physics(const FaultProblem& plan)
    : problem_(above_ground(plan)),
      groups_(diagnosis::single_faults(problem_, diagnosis::settle(problem_, {}).solution.segment_a_a)),
      model_(problem_) {}

Physics::Foreseen Physics::foresee(const Fault& fault, std::uint32_t place) const {
  const diagnosis::Outlook outlook = model_.outlooks({fault}, {place}, true).front();
  Foreseen foreseen{outlook.future.cast<double>(), outlook.out};
  for (std::size_t c = 0; c < problem_.candidates.size(); ++c) {
    if (!diagnosis::is_state(problem_.candidates[c].probe.quantity)) continue;
    const auto at = static_cast<Eigen::Index>(c);
    foreseen.states.push_back(foreseen.numbers[at] > 0.5);
    foreseen.numbers[at] = 0;
  }
  return foreseen;
}

double Physics::apart(const Fault& fault, std::uint32_t place, const diagnosis::Bracket& bracket) {
  const Foreseen truth = foresee(fault, place);
  std::vector<diagnosis::Probe> probes;
  Eigen::VectorXd sigma(truth.numbers.size());
  for (std::size_t c = 0; c < problem_.candidates.size(); ++c) {
    const Candidate& candidate = problem_.candidates[c];
    const auto at = static_cast<Eigen::Index>(c);
    probes.push_back(candidate.probe);
    sigma[at] = std::hypot(std::max(1e-3, candidate.sigma),
                           diagnosis::loose_share(candidate.probe.quantity) * truth.numbers[at]);
  }
  const diagnosis::Agreement noise =
      diagnosis::agreement(model_.uncertainty().rows(model_.settled({fault}), probes), sigma);
  double least = HUGE_VAL;
  for (const Group& group : groups_) {
    for (const Group::At& at : group.places) {
      if (!holds(bracket, at.place)) continue;
      constexpr double whole = 20;
      double centre = 1;
      double best = HUGE_VAL;
      for (double reach = whole; reach > 0.01; reach = reach == whole ? 0.5 : reach / 6) {
        for (const double value : values(group, centre, reach)) {
          const Foreseen other = foresee({group.kind, group.element, value}, at.place);
          if (other.states != truth.states) continue;
          const double d = diagnosis::distance2(noise, other.numbers - truth.numbers);
          if (d >= best) continue;
          best = d;
          centre = value;
        }
        if (!diagnosis::has_parameter(group.kind) || std::isinf(best)) break;
      }
      least = std::min(least, best);
      break;  // the other places of a bracket look alike above ground
    }
  }
  return std::sqrt(least);
}

}  // namespace duskwire::bench
