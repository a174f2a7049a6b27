// SPDX-License-Identifier: Apache-2.0
// Dual ascent: every cut between the root and a terminal must be crossed; cuts are paid for until the root is reached.
#include "wiring/steiner_bound.hpp"

#include <algorithm>
#include <limits>
#include <queue>

namespace duskwire::wiring {

double steiner_bound(const Graph& graph, const Neighbours& neighbours, const std::vector<std::uint32_t>& terminals,
                     Budget& budget) {
  // What is left of each arc's cost: 2e from a to b, 2e + 1 from b to a.
  std::vector<double> left(2 * graph.edges.size());
  for (std::size_t arc = 0; arc < left.size(); ++arc) left[arc] = graph.edges[arc / 2].cost;
  const std::uint32_t root = terminals.front();
  using Entry = std::pair<std::size_t, std::uint32_t>;  // size of its cut when last seen, terminal: small cuts first
  std::priority_queue<Entry, std::vector<Entry>, std::greater<>> open;
  for (std::size_t i = 1; i < terminals.size(); ++i) open.emplace(0, terminals[i]);
  std::vector<std::uint32_t> seen(graph.nodes, 0);
  std::uint32_t stamp = 0;
  double bound = 0;
  while (!open.empty() && budget.allowed()) {
    const std::uint32_t terminal = open.top().second;
    open.pop();
    ++stamp;
    std::vector<std::uint32_t> side{terminal};
    seen[terminal] = stamp;
    std::vector<std::size_t> crossing;
    for (std::size_t i = 0; i < side.size(); ++i) {
      for (const auto& link : neighbours.of(side[i])) {
        const std::size_t arc = 2 * std::size_t{link.edge} + (graph.edges[link.edge].b == side[i] ? 0 : 1);
        if (seen[link.node] == stamp) continue;
        if (left[arc] > 0) {
          crossing.push_back(arc);
        } else {
          seen[link.node] = stamp;
          side.push_back(link.node);
        }
      }
    }
    if (seen[root] == stamp) continue;
    double least = std::numeric_limits<double>::infinity();
    const auto tail = [&](std::size_t arc) { return arc % 2 == 0 ? graph.edges[arc / 2].a : graph.edges[arc / 2].b; };
    for (const std::size_t arc : crossing) {
      if (seen[tail(arc)] != stamp) least = std::min(least, left[arc]);
    }
    for (const std::size_t arc : crossing) {
      if (seen[tail(arc)] != stamp) left[arc] -= least;
    }
    bound += least;
    open.emplace(crossing.size(), terminal);
  }
  return bound;
}

}  // namespace duskwire::wiring
