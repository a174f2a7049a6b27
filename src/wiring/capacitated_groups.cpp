// SPDX-License-Identifier: Apache-2.0
#include "wiring/capacitated_groups.hpp"

#include <algorithm>
#include <limits>
#include <numeric>

namespace duskwire::wiring {
namespace {

struct Join {
  double saving = 0;
  std::uint32_t from = 0;  // groups
  std::uint32_t into = 0;
};

// The best join: a group gives up its own way to the root and goes to a node of another group.
Join best_join(const CapacitatedProblem& problem, const Groups& state, const std::vector<double>& gates) {
  Join best;
  for (std::uint32_t a = 0; a < problem.nodes; ++a) {
    if (a == problem.root) continue;
    for (std::uint32_t b = 0; b < problem.nodes; ++b) {
      const std::uint32_t from = state.group_of[a];
      const std::uint32_t into = state.group_of[b];
      if (b == problem.root || from == into) continue;
      const double saving = gates[from] - problem.between(a, b);
      if (saving > best.saving && state.demands[from] + state.demands[into] <= problem.capacity) {
        best = {saving, from, into};
      }
    }
  }
  return best;
}

}  // namespace

template <class Visit>
double GroupCost::grow(const Group& group, Visit visit) {
  left_ = group;
  nearest_.resize(problem_.nodes);
  via_.resize(problem_.nodes);
  for (const std::uint32_t node : left_) {
    nearest_[node] = problem_.between(problem_.root, node);
    via_[node] = problem_.root;
  }
  double total = 0;
  while (!left_.empty()) {
    std::size_t next = 0;
    for (std::size_t i = 1; i < left_.size(); ++i) {
      if (nearest_[left_[i]] < nearest_[left_[next]]) next = i;
    }
    const std::uint32_t node = left_[next];
    left_[next] = left_.back();
    left_.pop_back();
    total += nearest_[node];
    visit(node, via_[node]);
    for (const std::uint32_t other : left_) {
      const double direct = problem_.between(node, other);
      if (direct >= nearest_[other]) continue;
      nearest_[other] = direct;
      via_[other] = node;
    }
  }
  return total;
}

double GroupCost::of(const Group& group) {
  return grow(group, [](std::uint32_t, std::uint32_t) {});
}

void GroupCost::write_parents(const Group& group, std::vector<std::uint32_t>& parent) {
  grow(group, [&parent](std::uint32_t node, std::uint32_t via) { parent[node] = via; });
}

double Groups::cost() const { return std::accumulate(costs.begin(), costs.end(), 0.0); }

Groups joined_by_savings(const CapacitatedProblem& problem, GroupCost& cost) {
  Groups state;
  state.group_of.assign(problem.nodes, 0);
  std::vector<double> gates;
  for (std::uint32_t node = 0; node < problem.nodes; ++node) {
    if (node == problem.root) continue;
    state.group_of[node] = static_cast<std::uint32_t>(state.groups.size());
    state.groups.push_back({node});
    state.demands.push_back(problem.demand[node]);
    gates.push_back(problem.between(problem.root, node));
  }
  for (Join join = best_join(problem, state, gates); join.saving > 0; join = best_join(problem, state, gates)) {
    for (const std::uint32_t node : state.groups[join.from]) {
      state.group_of[node] = join.into;
      state.groups[join.into].push_back(node);
    }
    state.demands[join.into] += state.demands[join.from];
    state.groups[join.from].clear();
    state.demands[join.from] = 0;
  }
  for (const Group& group : state.groups) state.costs.push_back(cost.of(group));
  return state;
}

}  // namespace duskwire::wiring
