// SPDX-License-Identifier: Apache-2.0
// A weighted undirected graph as a list of edges, its neighbour lists, and disjoint sets: what the tree searches stand
// on.
#pragma once

#include <cstdint>
#include <numeric>
#include <vector>

namespace duskwire::wiring {

struct Edge {
  std::uint32_t a = 0;
  std::uint32_t b = 0;
  double cost = 0;
};

struct Graph {
  std::uint32_t nodes = 0;
  std::vector<Edge> edges;
};

// The edges at each node, in the order of the list of edges, in two flat arrays.
class Neighbours {
 public:
  struct Link {
    std::uint32_t node;  // the other end
    std::uint32_t edge;
  };
  struct Range {
    const Link* first;
    const Link* last;
    [[nodiscard]] const Link* begin() const { return first; }
    [[nodiscard]] const Link* end() const { return last; }
  };

  explicit Neighbours(const Graph& graph) : start_(graph.nodes + 1, 0), links_(2 * graph.edges.size()) {
    for (const Edge& edge : graph.edges) {
      ++start_[edge.a];
      ++start_[edge.b];
    }
    std::partial_sum(start_.begin(), start_.end(), start_.begin());
    for (std::uint32_t e = static_cast<std::uint32_t>(graph.edges.size()); e-- > 0;) {
      links_[--start_[graph.edges[e].a]] = {graph.edges[e].b, e};
      links_[--start_[graph.edges[e].b]] = {graph.edges[e].a, e};
    }
  }
  [[nodiscard]] Range of(std::uint32_t node) const {
    return {links_.data() + start_[node], links_.data() + start_[node + 1]};
  }

 private:
  std::vector<std::uint32_t> start_;
  std::vector<Link> links_;
};

class DisjointSets {
 public:
  explicit DisjointSets(std::uint32_t count) : parent_(count) { reset(); }

  void reset() { std::iota(parent_.begin(), parent_.end(), 0U); }
  std::uint32_t find(std::uint32_t node) {
    while (parent_[node] != node) node = parent_[node] = parent_[parent_[node]];
    return node;
  }
  // False where both were in one set already.
  bool join(std::uint32_t p, std::uint32_t q) {
    p = find(p);
    q = find(q);
    parent_[p] = q;
    return p != q;
  }

 private:
  std::vector<std::uint32_t> parent_;
};

}  // namespace duskwire::wiring
