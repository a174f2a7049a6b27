// SPDX-License-Identifier: Apache-2.0
#include "policies.hpp"

#include <algorithm>
#include <cmath>

#include "diagnosis/model.hpp"
#include "diagnosis/next_reading.hpp"
#include "diagnosis/worlds.hpp"
#include "half_split.hpp"
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

double minutes_of(const diagnosis::Candidate& candidate) { return candidate.effort_min + diagnosis::to_hand_min; }

std::uint32_t choose(const FaultProblem& problem, const Points& points, const Answer& answer, Policy policy,
                     wiring::Dice& dice) {
  if (policy == Policy::half) return half_of_chance(problem, points, answer);
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

// At the most so much is left open where one of the brackets has 90 %: h(0.1) + 0.1 log2(n - 1), the tenth spread
// evenly over all others. The right side of Fano's inequality (Cover and Thomas, Elements of Information Theory,
// theorem 2.10.1; from memory).
double left_at_stop_bit(const Answer& answer) {
  constexpr double rest = 1 - singled_out;
  const auto others = static_cast<double>(answer.brackets.size()) - 1;
  if (others < 1) return 0;
  return -singled_out * std::log2(singled_out) - rest * std::log2(rest) + rest * std::log2(others);
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
  FaultProblem problem = plan;
  const Points points(plan);
  if (lamps_seen) problem.observations = faulty::see_lamps(truth);
  Played played;
  for (std::size_t k = 0; k <= most; ++k) {
    const Answer answer =
        diagnosis::diagnose(problem, policy == Policy::ours ? diagnosis::Depth::whole : diagnosis::Depth::ranking);
    played.rank.push_back(rank_of_truth(plan, answer, truth));
    const double chance = answer.brackets.empty() ? 0 : answer.brackets.front().chance;
    if (k == 0) {
      played.entropy_bit = entropy_bit(answer);
      played.stop_bit = left_at_stop_bit(answer);
    }
    for (const diagnosis::NextReading& one : answer.next) {
      if (needs_no_spade(problem.candidates[one.candidate])) {
        played.most_bit = std::max(played.most_bit, one.information_bit);
      }
    }
    if (k == 0) played.first_bit = played.most_bit;
    if (k > 0) note_claims(problem, answer, truth, played);
    const auto above = static_cast<std::ptrdiff_t>(played.rank.back() - 1);
    played.above.emplace_back(answer.brackets.begin(), answer.brackets.begin() + above);
    if (!played.singled_out) {
      played.readings = k;
      played.at_stop = problem.observations;
      played.singled_out = chance > singled_out;
      played.right = played.singled_out && played.rank.back() == 1;
    }
    if (played.singled_out && (policy != Policy::ours || k >= 5)) break;
    const std::uint32_t next = k < most ? choose(problem, points, answer, policy, dice) : none;
    if (next == none) {
      played.nothing_left = !played.singled_out;
      break;
    }
    if (!played.singled_out) played.minutes += minutes_of(problem.candidates[next]);
    for (const auto& one : faulty::take(truth, problem.candidates[next], mischief, dice)) {
      problem.observations.push_back(one);
    }
  }
  played.taken = problem.observations;
  return played;
}

namespace {

bool opens(const diagnosis::Bracket& bracket, const std::vector<std::uint32_t>& sound) {
  return std::find(sound.begin(), sound.end(), bracket.places.front().place) != sound.end();
}

// What was opened and found sound is no explanation any more.
void rule_out(FaultProblem& problem, Answer& answer, const std::vector<std::uint32_t>& sound) {
  for (const std::uint32_t place : sound) problem.places[place].weight = 0;
  std::erase_if(answer.brackets, [&](const diagnosis::Bracket& one) { return opens(one, sound); });
  double left = 0;
  for (const diagnosis::Bracket& one : answer.brackets) left += one.chance;
  for (diagnosis::Bracket& one : answer.brackets) one.chance /= std::max(left, 1e-12);
}

}  // namespace

Found pursue(const FaultProblem& plan, const faulty::Truth& truth, const Played& played, Policy policy,
             std::size_t most, const faulty::Mischief& mischief, wiring::Dice& dice) {
  FaultProblem problem = plan;
  problem.observations = played.at_stop;
  const Points points(plan);
  Found found{played.readings, 0, played.minutes};
  std::vector<std::uint32_t> sound;
  bool stopped = true;  // as it was played
  while (found.opened < plan.places.size()) {
    Answer answer = diagnosis::diagnose(
        problem, policy == Policy::ours && !stopped ? diagnosis::Depth::whole : diagnosis::Depth::ranking);
    rule_out(problem, answer, sound);
    if (answer.brackets.empty()) break;
    const diagnosis::Bracket& top = answer.brackets.front();
    const std::uint32_t next = !stopped && top.chance <= singled_out && found.readings < most
                                   ? choose(problem, points, answer, policy, dice)
                                   : none;
    if (next != none) {
      ++found.readings;
      found.minutes += minutes_of(problem.candidates[next]);
      for (const auto& one : faulty::take(truth, problem.candidates[next], mischief, dice)) {
        problem.observations.push_back(one);
      }
      continue;
    }
    stopped = false;
    found.minutes += plan.holes[plan.places[top.places.front().place].hole].effort_min;
    if (leads_to(plan, top, truth)) return found;
    ++found.opened;
    for (const diagnosis::PlaceChance& one : top.places) sound.push_back(one.place);
  }
  return found;
}

double digging_only_min(const FaultProblem& plan, const faulty::Truth& truth) {
  const Answer answer = diagnosis::diagnose(plan, diagnosis::Depth::ranking);
  double minutes = 0;
  for (const diagnosis::HoleChance& one : answer.dig_order) {
    minutes += one.effort_min;
    if (one.hole == plan.places[truth.places.front()].hole) break;
  }
  return minutes;
}

}  // namespace duskwire::bench
