// SPDX-License-Identifier: Apache-2.0
#include "policies.hpp"

#include <algorithm>
#include <cmath>

#include "diagnosis/model.hpp"
#include "diagnosis/next_reading.hpp"
#include "diagnosis/worlds.hpp"
#include "physics.hpp"

namespace duskwire::bench {
namespace {

using diagnosis::Answer;
using diagnosis::FaultProblem;
using diagnosis::none;

bool holds(const diagnosis::Bracket& bracket, const faulty::Truth& truth) {
  return std::any_of(bracket.places.begin(), bracket.places.end(), [&](const diagnosis::PlaceChance& one) {
    return std::find(truth.places.begin(), truth.places.end(), one.place) != truth.places.end();
  });
}

bool was_read(const FaultProblem& problem, const diagnosis::Probe& probe) {
  if (probe.quantity == diagnosis::Quantity::lamps_seen) {
    return std::count_if(problem.observations.begin(), problem.observations.end(),
                         [](const diagnosis::Observation& one) {
                           return one.probe.quantity == diagnosis::Quantity::lamp_state;
                         }) >= static_cast<std::ptrdiff_t>(problem.network.loads.size());
  }
  return std::any_of(problem.observations.begin(), problem.observations.end(),
                     [&](const diagnosis::Observation& one) { return one.probe == probe; });
}

std::uint32_t choose(const FaultProblem& problem, const Answer& answer, Policy policy, wiring::Dice& dice) {
  if (policy == Policy::ours) {
    for (const diagnosis::NextReading& next : answer.next) {
      const diagnosis::Candidate& candidate = problem.candidates[next.candidate];
      if (needs_no_spade(candidate) && !was_read(problem, candidate.probe)) return next.candidate;
    }
    return none;  // nothing above ground is worth reading: where to dig is all there is to say
  }
  std::vector<std::uint32_t> open;
  for (std::uint32_t c = 0; c < problem.candidates.size(); ++c) {
    if (needs_no_spade(problem.candidates[c]) && !was_read(problem, problem.candidates[c].probe)) open.push_back(c);
  }
  return open.empty() ? none : open[dice.below(open.size())];
}

double entropy_bit(const Answer& answer) {
  double sum = 0;
  for (const diagnosis::Bracket& one : answer.brackets) {
    if (one.chance > 0) sum -= one.chance * std::log2(one.chance);
  }
  return sum;
}

// That a fault sits in a bracket or in a likelier one: with pairs of faults less than the sum of chances.
std::vector<double> together(const FaultProblem& problem, const Answer& answer) {
  std::vector<std::size_t> rank(problem.places.size(), answer.brackets.size());
  for (std::size_t k = 0; k < answer.brackets.size(); ++k) {
    for (const diagnosis::PlaceChance& one : answer.brackets[k].places) rank[one.place] = k;
  }
  std::vector<double> sums(answer.brackets.size(), 0);
  const diagnosis::Model model(problem);
  for (const diagnosis::World& world : diagnosis::worlds(model)) {
    std::size_t first = sums.size();
    for (const std::uint32_t place : world.places) first = std::min(first, rank[place]);
    if (first < sums.size()) sums[first] += world.chance;
  }
  for (std::size_t k = 1; k < sums.size(); ++k) sums[k] += sums[k - 1];
  return sums;
}

// The 90 % set takes its last place in with the chance that makes it 90 % exactly; that chance is what is counted.
void note_claims(const FaultProblem& problem, const Answer& answer, const faulty::Truth& truth, Played& played) {
  constexpr double stated = 0.9;
  constexpr double worth = 0.02;
  const std::vector<double> sums = together(problem, answer);
  double sum = 0;
  double held = 0;
  for (std::size_t k = 0; k < answer.brackets.size(); ++k) {
    const diagnosis::Bracket& one = answer.brackets[k];
    const bool holds_it = holds(one, truth);
    if (sum < stated && holds_it) held = std::max(held, std::min(1.0, (stated - sum) / std::max(1e-12, sums[k] - sum)));
    sum = sums[k];
    if (one.chance > worth) played.claims.emplace_back(one.chance, holds_it);
  }
  played.sets_held += held;
  ++played.sets;
}

}  // namespace

std::size_t rank_after(const Played& played, std::size_t readings) {
  return played.rank[std::min(readings, played.rank.size() - 1)];
}

bool leads_to(const FaultProblem& problem, const diagnosis::Bracket& bracket, const faulty::Truth& truth) {
  constexpr double dug_min = 10;
  if (holds(bracket, truth)) return true;
  const diagnosis::Place& dug = problem.places[bracket.places.front().place];
  if (dug.kind != diagnosis::PlaceKind::joint_side || problem.holes[dug.hole].effort_min < dug_min) return false;
  return std::any_of(truth.places.begin(), truth.places.end(), [&](std::uint32_t at) {
    const diagnosis::Place& place = problem.places[at];
    return place.kind == diagnosis::PlaceKind::joint_side && place.hole == dug.hole;
  });
}

std::size_t rank_of_truth(const FaultProblem& problem, const Answer& answer, const faulty::Truth& truth) {
  for (std::size_t k = 0; k < answer.brackets.size(); ++k) {
    if (leads_to(problem, answer.brackets[k], truth)) return k + 1;
  }
  return answer.brackets.size() + 1;
}

Played play(const FaultProblem& plan, const faulty::Truth& truth, Policy policy, std::size_t most,
            const faulty::Mischief& mischief, bool lamps_seen, wiring::Dice& dice) {
  constexpr double singled_out = 0.9;
  FaultProblem problem = plan;
  if (lamps_seen) problem.observations = faulty::see_lamps(truth);
  Played played;
  for (std::size_t k = 0; k <= most; ++k) {
    const Answer answer =
        diagnosis::diagnose(problem, policy == Policy::ours ? diagnosis::Depth::whole : diagnosis::Depth::ranking);
    played.rank.push_back(rank_of_truth(plan, answer, truth));
    const double chance = answer.brackets.empty() ? 0 : answer.brackets.front().chance;
    if (k == 0) played.entropy_bit = entropy_bit(answer);
    for (const diagnosis::NextReading& one : answer.next) {
      if (needs_no_spade(problem.candidates[one.candidate])) {
        played.most_bit = std::max(played.most_bit, one.information_bit);
      }
    }
    if (k > 0) note_claims(problem, answer, truth, played);
    const auto above = static_cast<std::ptrdiff_t>(played.rank.back() - 1);
    played.above.emplace_back(answer.brackets.begin(), answer.brackets.begin() + above);
    if (!played.singled_out) {
      played.readings = k;
      played.singled_out = chance > singled_out;
      played.right = played.singled_out && played.rank.back() == 1;
    }
    if (played.singled_out && (policy == Policy::random || k >= 5)) break;
    const std::uint32_t next = k < most ? choose(problem, answer, policy, dice) : none;
    if (next == none) {
      played.nothing_left = !played.singled_out;
      break;
    }
    for (const auto& one : faulty::take(truth, problem.candidates[next], mischief, dice)) {
      problem.observations.push_back(one);
    }
  }
  played.taken = problem.observations;
  return played;
}

std::size_t ideal_half_split(const FaultProblem& plan, const faulty::Truth& truth) {
  // A tree of points: 0 the supply, then transformers, outputs, nodes; each holds brackets of its own.
  const auto& network = plan.network;
  const std::size_t t0 = 1;
  const std::size_t o0 = t0 + network.transformers.size();
  const std::size_t n0 = o0 + network.outputs.size();
  std::vector<std::size_t> up(n0 + network.node_count, 0);
  std::vector<std::size_t> holder(plan.places.size(), 0);
  std::vector<std::pair<std::size_t, std::uint32_t>> brackets;  // point, a place that stands for it
  const std::vector<std::uint32_t> parent = diagnosis::parents(network);
  for (std::size_t o = 0; o < network.outputs.size(); ++o) {
    up[o0 + o] = t0 + network.outputs[o].transformer;
    up[n0 + network.outputs[o].node] = o0 + o;
  }
  for (std::uint32_t node = 0; node < network.node_count; ++node) {
    if (parent[node] != none) up[n0 + node] = n0 + parent[node];
  }
  for (std::uint32_t p = 0; p < plan.places.size(); ++p) {
    const diagnosis::Place& place = plan.places[p];
    std::size_t at = 0;
    if (place.kind == diagnosis::PlaceKind::transformer) at = t0 + place.index;
    if (place.kind == diagnosis::PlaceKind::output) at = o0 + place.index;
    if (place.kind == diagnosis::PlaceKind::lamp) at = n0 + network.loads[place.index].plus.node;
    if (place.kind == diagnosis::PlaceKind::joint_side || place.kind == diagnosis::PlaceKind::cable) {
      const electrical::Segment& segment = network.segments[place.index];
      at = n0 + (parent[segment.to] == segment.from ? segment.to : segment.from);
    }
    holder[p] = at;
    if (place.kind != diagnosis::PlaceKind::joint_side) brackets.emplace_back(at, p);
  }
  const auto beyond = [&](std::size_t point, std::size_t at) {
    for (; at != point; at = up[at]) {
      if (at == 0) return false;
    }
    return true;
  };
  std::size_t readings = 0;
  while (brackets.size() > 1) {
    std::size_t best = 0;
    std::size_t best_worst = brackets.size();
    for (std::size_t point = 1; point < up.size(); ++point) {
      const auto inside = static_cast<std::size_t>(
          std::count_if(brackets.begin(), brackets.end(), [&](const auto& one) { return beyond(point, one.first); }));
      const std::size_t worst = std::max(inside, brackets.size() - inside);
      if (worst < best_worst) {
        best_worst = worst;
        best = point;
      }
    }
    if (best == 0) break;  // one point is left: a lamp and the cable that leads to it, told apart at its base
    const bool inside = beyond(best, holder[truth.places.front()]);
    std::erase_if(brackets, [&](const auto& one) { return beyond(best, one.first) != inside; });
    ++readings;
  }
  return std::max<std::size_t>(1, readings);
}

}  // namespace duskwire::bench
