// SPDX-License-Identifier: Apache-2.0
// Construct by shortest paths from several roots, then large-neighbourhood search: take out or put in nodes, rejoin.
#include "wiring/steiner_tree.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "wiring/dice.hpp"
#include "wiring/steiner_bound.hpp"
#include "wiring/steiner_build.hpp"

namespace duskwire::wiring {
namespace {

using Edges = std::vector<std::uint32_t>;

Result<bool> checked(const SteinerProblem& problem) {
  const Graph& graph = problem.graph;
  if (problem.terminals.empty()) return Error{ErrorCode::invalid, "No terminals: name at least one node to join."};
  for (std::size_t e = 0; e < graph.edges.size(); ++e) {
    const Edge& edge = graph.edges[e];
    if (edge.a >= graph.nodes || edge.b >= graph.nodes || !std::isfinite(edge.cost) || edge.cost < 0) {
      return Error{ErrorCode::invalid,
                   fmt::format("Edge {} ({} to {}, cost {}): expected nodes below {} and a finite cost of 0 or more.",
                               e, edge.a, edge.b, edge.cost, graph.nodes)};
    }
  }
  DisjointSets sets(graph.nodes);
  for (const Edge& edge : graph.edges) sets.join(edge.a, edge.b);
  for (const std::uint32_t terminal : problem.terminals) {
    if (terminal >= graph.nodes || sets.find(terminal) != sets.find(problem.terminals.front())) {
      return Error{ErrorCode::invalid,
                   fmt::format("Terminal {} cannot be reached from terminal {}: add edges between them.", terminal,
                               problem.terminals.front())};
    }
  }
  return true;
}

// Part of the tree around a random place is taken out; what is left is joined again, at costs shaken a little.
Edges reopened(SteinerBuilder& builder, const Edges& tree, Dice& dice) {
  const Graph& graph = builder.graph();
  const double share = 0.02 + 0.3 * dice.unit() * dice.unit();
  std::vector<char> out(graph.nodes, 0);
  std::vector<std::uint32_t> near{graph.edges[tree[dice.below(tree.size())]].a};
  out[near[0]] = 1;
  const std::size_t many = 2 + static_cast<std::size_t>(share * static_cast<double>(graph.nodes));
  for (std::size_t i = 0; i < near.size() && near.size() < many; ++i) {
    for (const auto& link : builder.neighbours().of(near[i])) {
      if (out[link.node] == 0) near.push_back(link.node);
      out[link.node] = 1;
    }
  }
  Edges kept;
  for (const std::uint32_t edge : tree) {
    if (out[graph.edges[edge].a] == 0 || out[graph.edges[edge].b] == 0) kept.push_back(edge);
  }
  std::vector<double> weights(graph.edges.size());
  const double shake = 0.4 * dice.unit();
  for (std::size_t e = 0; e < weights.size(); ++e) weights[e] = graph.edges[e].cost * (1 + shake * dice.unit());
  return builder.joined(kept, weights);
}

// One to three nodes near the tree are put in and the whole is spanned anew.
Edges inserted(SteinerBuilder& builder, const Edges& tree, Dice& dice) {
  const Graph& graph = builder.graph();
  std::vector<char> in(graph.nodes, 0);
  std::vector<std::uint32_t> nodes;
  const auto add = [&](std::uint32_t node) {
    if (in[node] == 0) nodes.push_back(node);
    in[node] = 1;
  };
  for (const std::uint32_t edge : tree) {
    add(graph.edges[edge].a);
    add(graph.edges[edge].b);
  }
  for (std::size_t left = 1 + dice.below(3); left > 0; --left) {
    const auto links = builder.neighbours().of(nodes[dice.below(nodes.size())]);
    add((links.begin() + dice.below(static_cast<std::size_t>(links.end() - links.begin())))->node);
  }
  return builder.spanned(nodes);
}

}  // namespace

Result<SteinerTree> steiner_tree(const SteinerProblem& problem, const SteinerOptions& options) {
  if (const Result<bool> sound = checked(problem); !sound) return sound.error();
  std::vector<std::uint32_t> terminals = problem.terminals;
  std::sort(terminals.begin(), terminals.end());
  terminals.erase(std::unique(terminals.begin(), terminals.end()), terminals.end());
  SteinerBuilder builder(problem.graph, terminals);
  Budget budget(options.effort);
  Dice dice(options.effort.seed);
  SteinerTree best;
  if (terminals.size() > 1) {
    Edges tree = builder.grown(terminals.front(), {});
    double cost = builder.cost(tree);
    best.edges = tree;
    best.cost = cost;
    const auto settled = [&best] { return best.cost <= best.lower_bound * (1 + 1e-12) + 1e-12; };
    best.lower_bound = std::min(best.cost, steiner_bound(problem.graph, builder.neighbours(), terminals, budget));
    while (!tree.empty() && !settled() && budget.take_step()) {
      Edges next;
      if (budget.taken() <= 10) {
        next = builder.grown(terminals[dice.below(terminals.size())], {});
      } else {
        next = dice.below(2) == 0 ? reopened(builder, tree, dice) : inserted(builder, tree, dice);
      }
      const double next_cost = builder.cost(next);
      // Slightly dearer trees are walked through; every hundredth step starts again from the best.
      if (!next.empty() && (next_cost <= cost || next_cost <= best.cost * (1 + 0.01 * dice.unit() * dice.unit()))) {
        tree = std::move(next);
        cost = next_cost;
      }
      if (cost < best.cost) {
        best.cost = cost;
        best.edges = tree;
      }
      if (budget.taken() % 100 == 0) {
        tree = best.edges;
        cost = best.cost;
      }
    }
    best.lower_bound = std::min(best.lower_bound, best.cost);
    best.proven = settled();
  } else {
    best.proven = true;
  }
  best.steps = budget.taken();
  return best;
}

}  // namespace duskwire::wiring
