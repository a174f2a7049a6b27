// SPDX-License-Identifier: Apache-2.0
// Construct by savings, then simulated annealing over who shares a branch with whom, in rounds that grow: the rounds do
// not depend on how many there will be, so more effort never gives a dearer answer.
#include "wiring/capacitated_tree.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "wiring/capacitated_groups.hpp"
#include "wiring/dice.hpp"

namespace duskwire::wiring {
namespace {

constexpr std::uint64_t first_round_steps = 20'000;
constexpr double round_growth = 1.5;
constexpr std::size_t neighbours_looked_at = 12;

Result<bool> checked(const CapacitatedProblem& problem) {
  const std::size_t nodes = problem.nodes;
  if (nodes == 0 || problem.root >= nodes) return Error{ErrorCode::invalid, "The root must be one of the nodes."};
  if (problem.demand.size() != nodes || problem.cost.size() != nodes * nodes) {
    return Error{ErrorCode::invalid, fmt::format("{} nodes take {} demands and {} costs, here are {} and {}.", nodes,
                                                 nodes, nodes * nodes, problem.demand.size(), problem.cost.size())};
  }
  for (std::uint32_t a = 0; a < nodes; ++a) {
    const bool fits = problem.demand[a] >= 0 && problem.demand[a] <= problem.capacity;
    if (a != problem.root && !fits) {
      return Error{ErrorCode::invalid, fmt::format("Node {} demands {}: expected 0 up to the capacity of a branch, {}.",
                                                   a, problem.demand[a], problem.capacity)};
    }
    for (std::uint32_t b = 0; b < nodes; ++b) {
      const double cost = problem.between(a, b);
      if (std::isfinite(cost) && cost >= 0 && cost == problem.between(b, a)) continue;
      return Error{ErrorCode::invalid, fmt::format("The cost from {} to {} is {} and back {}: expected the same finite "
                                                   "number of 0 or more.",
                                                   a, b, cost, problem.between(b, a))};
    }
  }
  return true;
}

// What a move would make of the two groups that it touches.
struct Change {
  std::uint32_t a = 0;
  std::uint32_t b = 0;
  Group new_a;
  Group new_b;
  double demand_a = 0;
  double demand_b = 0;
};

class Annealing {
 public:
  Annealing(const CapacitatedProblem& problem, const Effort& effort)
      : problem_(problem), cost_(problem), budget_(effort), dice_(effort.seed) {
    for (std::uint32_t node = 0; node < problem.nodes; ++node) near_.push_back(nearest_to(node));
    best_ = joined_by_savings(problem, cost_);
    best_.groups.emplace_back();  // one empty group, so that a node may open a branch of its own
    best_.costs.push_back(0);
    best_.demands.push_back(0);
  }

  CapacitatedTree run() {
    double best_cost = best_.cost();
    double steps = static_cast<double>(first_round_steps);
    for (bool goes_on = problem_.nodes > 2; goes_on; steps *= round_growth) {
      goes_on = round(static_cast<std::uint64_t>(steps), best_cost);
    }
    CapacitatedTree tree;
    tree.parent.assign(problem_.nodes, problem_.root);
    Group all;
    for (const Group& group : best_.groups) {
      cost_.write_parents(group, tree.parent);
      tree.cost += cost_.of(group);
      all.insert(all.end(), group.begin(), group.end());
    }
    tree.lower_bound = std::min(cost_.of(all), tree.cost);
    tree.steps = budget_.taken();
    return tree;
  }

 private:
  [[nodiscard]] Group nearest_to(std::uint32_t node) const {
    Group others;
    for (std::uint32_t other = 0; other < problem_.nodes; ++other) {
      if (other != node && other != problem_.root) others.push_back(other);
    }
    const auto nearer = [&](std::uint32_t p, std::uint32_t q) {
      return problem_.between(node, p) < problem_.between(node, q);
    };
    std::stable_sort(others.begin(), others.end(), nearer);
    others.resize(std::min(others.size(), neighbours_looked_at));
    return others;
  }

  // From the best so far, warm to cold; false once the effort is spent.
  bool round(std::uint64_t steps, double& best_cost) {
    Groups state = best_;
    double cost = best_cost;
    const double mean = best_cost / problem_.nodes;
    const double warm = mean * (0.15 + 0.6 * dice_.unit());
    const double cold = 0.01 * mean;
    for (std::uint64_t step = 0; step < steps; ++step) {
      if (!budget_.take_step()) return false;
      const double share = static_cast<double>(step) / static_cast<double>(steps);
      const double heat = warm * std::pow(cold / warm, share);
      if (!propose(state)) continue;
      const double cost_a = cost_.of(change_.new_a);
      const double cost_b = cost_.of(change_.new_b);
      const double more = cost_a + cost_b - state.costs[change_.a] - state.costs[change_.b];
      if (more > 0 && dice_.unit() >= std::exp(-more / heat)) continue;
      accept(state, cost_a, cost_b);
      cost += more;
      if (cost < best_cost - 1e-9) {
        best_ = state;
        best_cost = best_.cost();
        cost = best_cost;
      }
    }
    return true;
  }

  // A node, or a node with all that hangs behind it, goes to a neighbour's branch or to one of its own; one or two
  // nodes may come back in its place.
  bool propose(const Groups& state) {
    std::uint32_t node = static_cast<std::uint32_t>(dice_.below(problem_.nodes - 1));
    if (node >= problem_.root) ++node;
    const Group& near = near_[node];
    const std::uint32_t other = near[dice_.below(near.size())];
    const std::size_t kind = dice_.below(32);
    change_.a = state.group_of[node];
    change_.b = kind == 0 ? empty_group(state) : state.group_of[other];
    if (change_.a == change_.b) return false;
    moving_.assign(1, node);
    if (kind % 2 == 0) add_all_behind(state, node);
    Group back;
    if (kind >= 16) back.push_back(partner_in(state.groups[change_.b]));
    if (kind >= 28) back.push_back(partner_in(state.groups[change_.b]));
    return build(state, back);
  }

  static std::uint32_t empty_group(const Groups& state) {
    const auto found = std::find_if(state.groups.begin(), state.groups.end(), [](const Group& g) { return g.empty(); });
    return static_cast<std::uint32_t>(found - state.groups.begin());
  }

  std::uint32_t partner_in(const Group& group) { return group[dice_.below(group.size())]; }

  void add_all_behind(const Groups& state, std::uint32_t node) {
    parents_.resize(problem_.nodes);
    const Group& group = state.groups[state.group_of[node]];
    cost_.write_parents(group, parents_);
    for (std::size_t i = 0; i < moving_.size(); ++i) {
      for (const std::uint32_t child : group) {
        if (parents_[child] == moving_[i]) moving_.push_back(child);
      }
    }
  }

  bool build(const Groups& state, const Group& back) {
    const auto is_in = [](const Group& group, std::uint32_t node) {
      return std::find(group.begin(), group.end(), node) != group.end();
    };
    change_.new_a.clear();
    change_.new_b.clear();
    for (const std::uint32_t node : state.groups[change_.a]) {
      (is_in(moving_, node) ? change_.new_b : change_.new_a).push_back(node);
    }
    for (const std::uint32_t node : state.groups[change_.b]) {
      (is_in(back, node) ? change_.new_a : change_.new_b).push_back(node);
    }
    change_.demand_a = demand_of(change_.new_a);
    change_.demand_b = demand_of(change_.new_b);
    return change_.demand_a <= problem_.capacity && change_.demand_b <= problem_.capacity;
  }

  [[nodiscard]] double demand_of(const Group& group) const {
    double sum = 0;
    for (const std::uint32_t node : group) sum += problem_.demand[node];
    return sum;
  }

  void accept(Groups& state, double cost_a, double cost_b) {
    for (const std::uint32_t node : change_.new_a) state.group_of[node] = change_.a;
    for (const std::uint32_t node : change_.new_b) state.group_of[node] = change_.b;
    state.groups[change_.a] = change_.new_a;
    state.groups[change_.b] = change_.new_b;
    state.costs[change_.a] = cost_a;
    state.costs[change_.b] = cost_b;
    state.demands[change_.a] = change_.demand_a;
    state.demands[change_.b] = change_.demand_b;
  }

  const CapacitatedProblem& problem_;
  GroupCost cost_;
  Budget budget_;
  Dice dice_;
  std::vector<Group> near_;
  Groups best_;
  Change change_;
  Group moving_;
  std::vector<std::uint32_t> parents_;
};

}  // namespace

Result<CapacitatedTree> capacitated_tree(const CapacitatedProblem& problem, const Effort& effort) {
  const Result<bool> fits = checked(problem);
  if (!fits) return fits.error();
  return Annealing(problem, effort).run();
}

}  // namespace duskwire::wiring
