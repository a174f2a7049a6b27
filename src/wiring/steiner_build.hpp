// SPDX-License-Identifier: Apache-2.0
// From pieces of a tree to a whole one: joins pieces along shortest paths, spans what was touched, cuts dead ends. The
// one repair that construction and local search of the Steiner tree share.
#pragma once

#include <cstdint>
#include <utility>
#include <vector>

#include "wiring/graph.hpp"

namespace duskwire::wiring {

class SteinerBuilder {
 public:
  // Both are kept by reference. `terminals` is sorted, without repeats; all in one component of the graph.
  SteinerBuilder(const Graph& graph, const std::vector<std::uint32_t>& terminals);

  // The tree's edges after joining the pieces that `kept` edges and the terminals form. `weights`, one per edge, say
  // what the joining paths cost (true costs decide about the rest); empty: the true costs.
  std::vector<std::uint32_t> joined(const std::vector<std::uint32_t>& kept, const std::vector<double>& weights);

  // Least spanning tree over these nodes, dead ends that are no terminals cut. Empty if they do not hang together.
  std::vector<std::uint32_t> spanned(const std::vector<std::uint32_t>& nodes);

  // Shortest-path heuristic from a root: the nearest terminal joins next (Takahashi, Matsuyama 1980).
  std::vector<std::uint32_t> grown(std::uint32_t root, const std::vector<double>& weights);

  [[nodiscard]] double cost(const std::vector<std::uint32_t>& edges) const;
  [[nodiscard]] bool is_terminal(std::uint32_t node) const { return terminal_[node] != 0; }
  [[nodiscard]] const Neighbours& neighbours() const { return neighbours_; }
  [[nodiscard]] const Graph& graph() const { return graph_; }

 private:
  using Queue = std::vector<std::pair<double, std::uint32_t>>;

  void spread(const std::vector<double>& weights);
  void add_path(std::uint32_t node, std::vector<std::uint32_t>& nodes);
  std::vector<std::uint32_t> pruned(const std::vector<std::uint32_t>& edges);

  const Graph& graph_;
  const std::vector<std::uint32_t>& terminals_;
  Neighbours neighbours_;
  std::vector<char> terminal_;
  std::vector<std::uint32_t> cost_rank_;  // place of each edge in the order of cost
  std::vector<std::uint32_t> by_cost_;
  DisjointSets sets_;
  std::vector<double> distance_;
  std::vector<std::uint32_t> origin_, by_edge_, degree_, mark_;
  std::uint32_t stamp_ = 0;
  Queue queue_;
};

}  // namespace duskwire::wiring
