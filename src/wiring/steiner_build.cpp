// SPDX-License-Identifier: Apache-2.0
// Joining by shortest paths between pieces (Mehlhorn 1988: the edges between nearest-piece regions suffice).
#include "wiring/steiner_build.hpp"

#include <algorithm>
#include <functional>
#include <iterator>
#include <limits>

namespace duskwire::wiring {

namespace {

constexpr double far = std::numeric_limits<double>::infinity();
constexpr std::uint32_t none = std::numeric_limits<std::uint32_t>::max();

double weight_of(const Graph& graph, const std::vector<double>& weights, std::uint32_t edge) {
  return weights.empty() ? graph.edges[edge].cost : weights[edge];
}

}  // namespace

SteinerBuilder::SteinerBuilder(const Graph& graph, const std::vector<std::uint32_t>& terminals)
    : graph_(graph),
      terminals_(terminals),
      neighbours_(graph),
      terminal_(graph.nodes, 0),
      cost_rank_(graph.edges.size()),
      by_cost_(graph.edges.size()),
      sets_(graph.nodes),
      distance_(graph.nodes, far),
      origin_(graph.nodes, none),
      by_edge_(graph.nodes, none),
      degree_(graph.nodes, 0),
      mark_(graph.nodes, 0) {
  for (const std::uint32_t terminal : terminals) terminal_[terminal] = 1;
  std::iota(by_cost_.begin(), by_cost_.end(), 0U);
  std::stable_sort(by_cost_.begin(), by_cost_.end(),
                   [&graph](std::uint32_t p, std::uint32_t q) { return graph.edges[p].cost < graph.edges[q].cost; });
  for (std::uint32_t rank = 0; rank < by_cost_.size(); ++rank) cost_rank_[by_cost_[rank]] = rank;
}

double SteinerBuilder::cost(const std::vector<std::uint32_t>& edges) const {
  double sum = 0;
  for (const std::uint32_t edge : edges) sum += graph_.edges[edge].cost;
  return sum;
}

// Distances from the nodes in the queue, and from which of them.
void SteinerBuilder::spread(const std::vector<double>& weights) {
  std::make_heap(queue_.begin(), queue_.end(), std::greater<>());
  while (!queue_.empty()) {
    std::pop_heap(queue_.begin(), queue_.end(), std::greater<>());
    const auto [distance, node] = queue_.back();
    queue_.pop_back();
    if (distance > distance_[node]) continue;
    for (const auto& link : neighbours_.of(node)) {
      const double next = distance + weight_of(graph_, weights, link.edge);
      if (next >= distance_[link.node]) continue;
      distance_[link.node] = next;
      origin_[link.node] = origin_[node];
      by_edge_[link.node] = link.edge;
      queue_.emplace_back(next, link.node);
      std::push_heap(queue_.begin(), queue_.end(), std::greater<>());
    }
  }
}

// The nodes from `node` back to where the spread began.
void SteinerBuilder::add_path(std::uint32_t node, std::vector<std::uint32_t>& nodes) {
  while (mark_[node] != stamp_) {
    mark_[node] = stamp_;
    nodes.push_back(node);
    if (by_edge_[node] == none) return;
    const Edge& edge = graph_.edges[by_edge_[node]];
    node = edge.a == node ? edge.b : edge.a;
  }
}

std::vector<std::uint32_t> SteinerBuilder::joined(const std::vector<std::uint32_t>& kept,
                                                  const std::vector<double>& weights) {
  ++stamp_;
  std::vector<std::uint32_t> nodes;
  const auto touch = [&](std::uint32_t node) {
    if (mark_[node] == stamp_) return;
    mark_[node] = stamp_;
    nodes.push_back(node);
  };
  sets_.reset();
  for (const std::uint32_t edge : kept) {
    touch(graph_.edges[edge].a);
    touch(graph_.edges[edge].b);
    sets_.join(graph_.edges[edge].a, graph_.edges[edge].b);
  }
  for (const std::uint32_t terminal : terminals_) touch(terminal);
  std::fill(distance_.begin(), distance_.end(), far);
  std::fill(by_edge_.begin(), by_edge_.end(), none);
  queue_.clear();
  for (const std::uint32_t node : nodes) {
    distance_[node] = 0;
    origin_[node] = node;
    queue_.emplace_back(0.0, node);
  }
  spread(weights);
  std::vector<std::pair<double, std::uint32_t>> bridges;
  for (std::uint32_t e = 0; e < graph_.edges.size(); ++e) {
    const Edge& edge = graph_.edges[e];
    if (distance_[edge.a] == far || distance_[edge.b] == far) continue;
    if (sets_.find(origin_[edge.a]) == sets_.find(origin_[edge.b])) continue;
    bridges.emplace_back(distance_[edge.a] + weight_of(graph_, weights, e) + distance_[edge.b], e);
  }
  std::sort(bridges.begin(), bridges.end());
  for (const auto& [length, e] : bridges) {
    const Edge& edge = graph_.edges[e];
    if (!sets_.join(origin_[edge.a], origin_[edge.b])) continue;
    add_path(edge.a, nodes);
    add_path(edge.b, nodes);
  }
  return spanned(nodes);
}

std::vector<std::uint32_t> SteinerBuilder::spanned(const std::vector<std::uint32_t>& nodes) {
  ++stamp_;
  for (const std::uint32_t node : nodes) mark_[node] = stamp_;
  std::vector<std::uint32_t> ranks;
  for (const std::uint32_t node : nodes) {
    for (const auto& link : neighbours_.of(node)) {
      if (node < link.node && mark_[link.node] == stamp_) ranks.push_back(cost_rank_[link.edge]);
    }
  }
  std::sort(ranks.begin(), ranks.end());
  sets_.reset();
  std::vector<std::uint32_t> tree;
  for (const std::uint32_t rank : ranks) {
    const std::uint32_t edge = by_cost_[rank];
    if (sets_.join(graph_.edges[edge].a, graph_.edges[edge].b)) tree.push_back(edge);
  }
  if (tree.size() + 1 != nodes.size()) return {};
  return pruned(tree);
}

std::vector<std::uint32_t> SteinerBuilder::pruned(const std::vector<std::uint32_t>& edges) {
  ++stamp_;
  // Of the edges at a node only their exclusive-or is kept: at a leaf it is the last edge itself.
  for (const std::uint32_t edge : edges) {
    for (const std::uint32_t node : {graph_.edges[edge].a, graph_.edges[edge].b}) {
      if (mark_[node] != stamp_) {
        mark_[node] = stamp_;
        degree_[node] = 0;
        by_edge_[node] = 0;
      }
      ++degree_[node];
      by_edge_[node] ^= edge;
    }
  }
  std::vector<std::uint32_t> cut;
  for (const std::uint32_t start : edges) {
    for (std::uint32_t node : {graph_.edges[start].a, graph_.edges[start].b}) {
      while (degree_[node] == 1 && !is_terminal(node)) {
        const std::uint32_t edge = by_edge_[node];
        const std::uint32_t other = graph_.edges[edge].a == node ? graph_.edges[edge].b : graph_.edges[edge].a;
        cut.push_back(edge);
        degree_[node] = 0;
        --degree_[other];
        by_edge_[other] ^= edge;
        node = other;
      }
    }
  }
  std::vector<std::uint32_t> left = edges;
  std::sort(left.begin(), left.end());
  std::sort(cut.begin(), cut.end());
  std::vector<std::uint32_t> tree;
  std::set_difference(left.begin(), left.end(), cut.begin(), cut.end(), std::back_inserter(tree));
  return tree;
}

std::vector<std::uint32_t> SteinerBuilder::grown(std::uint32_t root, const std::vector<double>& weights) {
  std::fill(distance_.begin(), distance_.end(), far);
  std::fill(by_edge_.begin(), by_edge_.end(), none);
  ++stamp_;
  std::vector<std::uint32_t> nodes;
  Queue queue{{0.0, root}};
  distance_[root] = 0;
  mark_[root] = stamp_;
  nodes.push_back(root);
  std::size_t missing = terminals_.size() - (is_terminal(root) ? 1 : 0);
  while (!queue.empty() && missing > 0) {
    std::pop_heap(queue.begin(), queue.end(), std::greater<>());
    const auto [distance, node] = queue.back();
    queue.pop_back();
    if (distance > distance_[node]) continue;
    const auto enter = [&](double value, std::uint32_t at) {
      distance_[at] = value;
      queue.emplace_back(value, at);
      std::push_heap(queue.begin(), queue.end(), std::greater<>());
    };
    if (is_terminal(node) && mark_[node] != stamp_) {
      const std::size_t before = nodes.size();
      add_path(node, nodes);
      --missing;
      for (std::size_t i = before; i < nodes.size(); ++i) enter(0, nodes[i]);
      continue;
    }
    for (const auto& link : neighbours_.of(node)) {
      const double next = distance + weight_of(graph_, weights, link.edge);
      if (next >= distance_[link.node]) continue;
      by_edge_[link.node] = link.edge;
      enter(next, link.node);
    }
  }
  return spanned(nodes);
}

}  // namespace duskwire::wiring
