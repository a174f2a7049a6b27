// SPDX-License-Identifier: Apache-2.0
#include "wiring/ways.hpp"

#include <algorithm>
#include <functional>

namespace duskwire::wiring {
namespace {

Graph bare(const GroundGraph& ground) {
  Graph graph{static_cast<std::uint32_t>(ground.nodes.size()), {}};
  graph.edges.reserve(ground.edges.size());
  for (const GroundEdge& edge : ground.edges) graph.edges.push_back({edge.a, edge.b, edge.dig_cost});
  return graph;
}

}  // namespace

Ways::Ways(const GroundGraph& ground)
    : ground_(ground),
      neighbours_(bare(ground)),
      cost_(ground.nodes.size(), 0),
      by_edge_(ground.nodes.size(), none),
      stamp_(ground.nodes.size(), 0),
      settled_(ground.nodes.size(), 0) {
  prices_.reserve(ground.edges.size());
  for (const GroundEdge& edge : ground.edges) prices_.push_back({edge.length_m, edge.dig_cost});
}

void Ways::start(std::uint32_t node, const Layout& layout, double per_m) {
  ++now_;
  start_ = node;
  layout_ = &layout;
  per_m_ = per_m;
  queue_.assign(1, {0.0, node});
  cost_[node] = 0;
  by_edge_[node] = none;
  stamp_[node] = now_;
}

std::uint32_t Ways::next() {
  while (!queue_.empty()) {
    const auto [cost, node] = queue_.front();
    std::pop_heap(queue_.begin(), queue_.end(), std::greater<>());
    queue_.pop_back();
    if (settled_[node] == now_) continue;
    settled_[node] = now_;
    for (const Neighbours::Link& link : neighbours_.of(node)) {
      if (settled_[link.node] == now_) continue;
      const Price& price = prices_[link.edge];
      const double further = cost + per_m_ * price.length_m + (layout_->laid[link.edge] > 0 ? 0.0 : price.dig_cost);
      if (stamp_[link.node] == now_ && further >= cost_[link.node]) continue;
      cost_[link.node] = further;
      by_edge_[link.node] = link.edge;
      stamp_[link.node] = now_;
      queue_.emplace_back(further, link.node);
      std::push_heap(queue_.begin(), queue_.end(), std::greater<>());
    }
    return node;
  }
  return none;
}

WayPtr Ways::way_from(std::uint32_t node) const {
  std::vector<std::uint32_t> edges;
  for (std::uint32_t at = node; by_edge_[at] != none;) {
    const GroundEdge& edge = ground_.edges[by_edge_[at]];
    edges.push_back(by_edge_[at]);
    at = edge.a == at ? edge.b : edge.a;
  }
  return make_way(ground_, node, std::move(edges));
}

WayPtr Ways::way_to(std::uint32_t node) const {
  std::vector<std::uint32_t> edges = way_from(node)->edges;
  std::reverse(edges.begin(), edges.end());
  return make_way(ground_, start_, std::move(edges));
}

}  // namespace duskwire::wiring
