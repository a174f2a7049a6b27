// SPDX-License-Identifier: Apache-2.0
#include "faulty/small_case.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>

#include "diagnosis/hypotheses.hpp"
#include "diagnosis/model.hpp"
#include "diagnosis/next_reading.hpp"

namespace duskwire::faulty {
namespace {

using diagnosis::FaultProblem;
using diagnosis::Group;
using diagnosis::Quantity;
using diagnosis::World;

using Subset = std::uint64_t;  // of the causes, one bit each

double step_of(Quantity quantity) {
  switch (quantity) {
    case Quantity::loop_ohm:
    case Quantity::node_v:
    case Quantity::output_v:
      return 0.25;
    case Quantity::output_a:
    case Quantity::cable_a:
    case Quantity::cable_net_a:
      return 0.2;
    default:
      return 0.05;
  }
}

void choose_readings(FaultProblem& problem, std::size_t count, wiring::Dice& dice) {
  constexpr double dug_min = 10;
  std::vector<diagnosis::Candidate> open;
  for (const diagnosis::Candidate& one : problem.candidates) {
    const Quantity quantity = one.probe.quantity;
    if (one.effort_min < dug_min && quantity != Quantity::lamps_seen && quantity != Quantity::mains_v)
      open.push_back(one);
  }
  std::erase_if(problem.candidates,
                [](const diagnosis::Candidate& one) { return one.probe.quantity != Quantity::lamps_seen; });
  while (problem.candidates.size() < count && !open.empty()) {
    const auto at = static_cast<std::ptrdiff_t>(dice.below(open.size()));
    problem.candidates.push_back(open[static_cast<std::size_t>(at)]);
    open.erase(open.begin() + at);
  }
  for (diagnosis::Candidate& one : problem.candidates) one.sigma = step_of(one.probe.quantity) / 20;
  problem.spread = {0, 0, 0, 0, 0, 0};
}

World draw(const diagnosis::Model& model, const std::vector<Group>& groups, wiring::Dice& dice) {
  double left = dice.unit() * (1 - groups.front().chance());
  std::size_t g = 0;
  while (left > 0 && g + 1 < groups.size()) left -= groups[++g].chance();
  const Group& group = groups[g];
  const double parameter = group.trials[dice.below(group.trials.size())];
  World world;
  world.faults = {{group.kind, group.element, parameter}};
  world.places = {group.places.front().place};
  world.chance = group.chance();
  const diagnosis::Outlook outlook = model.outlooks(world.faults, world.places, true).front();
  world.pieces.push_back({parameter, 1, outlook.measured, outlook.future, outlook.dark, outlook.out});
  return world;
}

bool differs(const std::vector<World>& worlds, const World& other) {
  return std::none_of(worlds.begin(), worlds.end(), [&](const World& one) { return one.places == other.places; });
}

// Rounded to steps; the lamp beside is part of what is shown.
void number_outcomes(SmallCase& one) {
  for (std::size_t c = 0; c < one.problem.candidates.size(); ++c) {
    const Quantity quantity = one.problem.candidates[c].probe.quantity;
    const double step = quantity == Quantity::breaker ? 1 : step_of(quantity);
    std::map<std::pair<long, std::vector<bool>>, std::uint32_t> number;
    std::vector<std::uint32_t> shown;
    for (World& cause : one.causes) {
      diagnosis::Piece& piece = cause.pieces.front();
      float& value = piece.future[static_cast<Eigen::Index>(c)];
      const long steps = std::lround(value / step);
      value = static_cast<float>(static_cast<double>(steps) * step);
      const std::vector<bool> seen = quantity == Quantity::lamps_seen ? piece.out : std::vector<bool>{piece.dark[c]};
      shown.push_back(number.emplace(std::pair{steps, seen}, static_cast<std::uint32_t>(number.size())).first->second);
    }
    one.shown.push_back(std::move(shown));
  }
}

double cost_of(const SmallCase& one, std::size_t reading) {
  return one.problem.candidates[reading].effort_min + diagnosis::to_hand_min;
}

double chance_of(const SmallCase& one, Subset causes) {
  double sum = 0;
  for (std::size_t k = 0; k < one.causes.size(); ++k) {
    if (causes >> k & 1U) sum += one.causes[k].chance;
  }
  return sum;
}

// The parts into which a reading divides the causes that are left.
std::vector<Subset> parts(const SmallCase& one, std::size_t reading, Subset causes) {
  std::vector<Subset> found(one.causes.size(), 0);
  for (std::size_t k = 0; k < one.causes.size(); ++k) {
    if (causes >> k & 1U) found[one.shown[reading][k]] |= Subset{1} << k;
  }
  std::erase(found, Subset{0});
  return found;
}

Subset all_of(const SmallCase& one) { return (Subset{1} << one.causes.size()) - 1; }

// Follows `choose` down every branch; -1: no reading divides what is left.
double cost_by(const SmallCase& one, Subset causes, const std::function<int(Subset)>& choose) {
  const int reading = choose(causes);
  if (reading < 0) return 0;
  const auto at = static_cast<std::size_t>(reading);
  double cost = cost_of(one, at);
  for (const Subset part : parts(one, at, causes)) {
    cost += chance_of(one, part) / chance_of(one, causes) * cost_by(one, part, choose);
  }
  return cost;
}

// What is expected to be told by knowing which of these parts the cause is in.
double entropy_bit(const SmallCase& one, const std::vector<Subset>& divided) {
  double sum = 0;
  for (const Subset part : divided) sum -= chance_of(one, part) * std::log2(chance_of(one, part));
  return sum;
}

}  // namespace

SmallCase make_small_case(const FaultProblem& plan, std::size_t causes, std::size_t readings, wiring::Dice& dice) {
  SmallCase one;
  one.problem = plan;
  choose_readings(one.problem, readings, dice);
  const diagnosis::Model model(one.problem);
  const std::vector<Group> groups =
      diagnosis::single_faults(one.problem, diagnosis::settle(one.problem, {}).solution.segment_a_a);
  while (one.causes.size() < causes) {
    World next = draw(model, groups, dice);
    if (differs(one.causes, next)) one.causes.push_back(std::move(next));
  }
  std::stable_sort(one.causes.begin(), one.causes.end(),
                   [](const World& x, const World& y) { return x.chance > y.chance; });
  const double sum = chance_of(one, all_of(one));
  for (World& cause : one.causes) cause.chance /= sum;
  number_outcomes(one);
  return one;
}

double least_cost_min(const SmallCase& one) {
  // A subset's parts are smaller numbers than itself, so all of them are known when it is reached.
  std::vector<double> least(all_of(one) + 1, 0);
  for (Subset causes = 1; causes <= all_of(one); ++causes) {
    double best = HUGE_VAL;
    for (std::size_t c = 0; c < one.shown.size(); ++c) {
      const std::vector<Subset> divided = parts(one, c, causes);
      if (divided.size() < 2) continue;
      double cost = cost_of(one, c);
      for (const Subset part : divided) cost += chance_of(one, part) / chance_of(one, causes) * least[part];
      best = std::min(best, cost);
    }
    if (std::isfinite(best)) least[causes] = best;
  }
  return least[all_of(one)];
}

double engine_cost_min(const SmallCase& one) {
  const diagnosis::Model model(one.problem);
  return cost_by(one, all_of(one), [&](Subset causes) {
    std::vector<World> left;
    for (std::size_t k = 0; k < one.causes.size(); ++k) {
      if ((causes >> k & 1U) == 0) continue;
      left.push_back(one.causes[k]);
      left.back().chance /= chance_of(one, causes);
    }
    for (const diagnosis::NextReading& next : diagnosis::next_readings(model, left)) {
      if (parts(one, next.candidate, causes).size() > 1) return static_cast<int>(next.candidate);
    }
    // What is worth too little to be named may still divide them: any that does.
    for (std::size_t c = 0; c < one.shown.size(); ++c) {
      if (parts(one, c, causes).size() > 1) return static_cast<int>(c);
    }
    return -1;
  });
}

double random_cost_min(const SmallCase& one, wiring::Dice& dice) {
  return cost_by(one, all_of(one), [&](Subset causes) {
    std::vector<int> open;
    for (std::size_t c = 0; c < one.shown.size(); ++c) {
      if (parts(one, c, causes).size() > 1) open.push_back(static_cast<int>(c));
    }
    return open.empty() ? -1 : open[dice.below(open.size())];
  });
}

double entropy_bound_min(const SmallCase& one) {
  std::vector<Subset> told{all_of(one)};  // by all readings together
  double most_bit_a_min = 0;
  for (std::size_t c = 0; c < one.shown.size(); ++c) {
    most_bit_a_min = std::max(most_bit_a_min, entropy_bit(one, parts(one, c, all_of(one))) / cost_of(one, c));
    std::vector<Subset> finer;
    for (const Subset causes : told) {
      const std::vector<Subset> divided = parts(one, c, causes);
      finer.insert(finer.end(), divided.begin(), divided.end());
    }
    told = std::move(finer);
  }
  return most_bit_a_min > 0 ? entropy_bit(one, told) / most_bit_a_min : 0;
}

}  // namespace duskwire::faulty
