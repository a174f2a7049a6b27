// SPDX-License-Identifier: Apache-2.0
#include "sites/site_ways.hpp"

#include <algorithm>

#include "study/route_goods.hpp"
#include "study/route_ground.hpp"

namespace duskwire::sites {
namespace {

using geometry::Point2;

// A metre of the usual cable put in: what keeps a way short where nothing has to be dug.
constexpr double cable_minor_per_m = 200;

wiring::GroundGraph graph_of(const job::Job& site, const study::Ruleset& rules, const job::Catalogue& stock,
                             const estimate::InstallRates& rates) {
  const study::RouteGoods goods(site, stock, rates);
  std::vector<Point2> points;
  for (const job::Transformer& transformer : site.transformers) points.push_back(transformer.position.value());
  for (const job::Luminaire& lamp : site.luminaires) points.push_back({lamp.position->x_m, lamp.position->y_m});
  return wiring::ground_graph(study::ground_map(site, rules, {}, goods.prices, goods), points);
}

wiring::Neighbours neighbours_of(const wiring::GroundGraph& ground) {
  wiring::Graph graph;
  graph.nodes = static_cast<std::uint32_t>(ground.nodes.size());
  for (const wiring::GroundEdge& edge : ground.edges) graph.edges.push_back({edge.a, edge.b, 0});
  return wiring::Neighbours(graph);
}

}  // namespace

SiteWays::SiteWays(const job::Job& site, const study::Ruleset& rules, const job::Catalogue& stock,
                   const estimate::InstallRates& rates)
    : site_(site),
      places_(site.transformers.size()),
      ground_(graph_of(site, rules, stock, rates)),
      neighbours_(neighbours_of(ground_)),
      dug_(ground_.edges.size(), 0),
      settled_(ground_.nodes.size(), 0),
      cost_(ground_.nodes.size(), std::numeric_limits<double>::infinity()),
      by_edge_(ground_.nodes.size(), nowhere) {}

void SiteWays::start(const std::vector<std::uint32_t>& nodes) {
  for (const std::uint32_t node : touched_) {
    settled_[node] = 0;
    cost_[node] = std::numeric_limits<double>::infinity();
    by_edge_[node] = nowhere;
  }
  touched_ = nodes;
  queue_ = {};
  for (const std::uint32_t node : nodes) {
    cost_[node] = 0;
    queue_.push({0, node});
  }
}

std::optional<std::pair<double, std::uint32_t>> SiteWays::next() {
  while (!queue_.empty()) {
    const auto [cost, node] = queue_.top();
    queue_.pop();
    if (settled_[node] != 0) continue;
    settled_[node] = 1;
    for (const auto& link : neighbours_.of(node)) {
      const wiring::GroundEdge& edge = ground_.edges[link.edge];
      const double onward = cost + (dug_[link.edge] != 0 ? 0 : edge.dig_cost) + cable_minor_per_m * edge.length_m;
      if (onward >= cost_[link.node]) continue;
      if (by_edge_[link.node] == nowhere) touched_.push_back(link.node);
      cost_[link.node] = onward;
      by_edge_[link.node] = link.edge;
      queue_.push({onward, link.node});
    }
    return std::make_pair(cost, node);
  }
  return std::nullopt;
}

std::uint32_t SiteWays::beginning_of(std::uint32_t node) const {
  while (by_edge_[node] != nowhere) {
    const wiring::GroundEdge& edge = ground_.edges[by_edge_[node]];
    node = edge.a == node ? edge.b : edge.a;
  }
  return node;
}

SiteRoute SiteWays::route_to(std::uint32_t node) const {
  SiteRoute route;
  route.path.push_back(ground_.nodes[node].at);
  while (by_edge_[node] != nowhere) {
    const wiring::GroundEdge& edge = ground_.edges[by_edge_[node]];
    const bool backwards = edge.a == node;  // a duct may have bends of its own
    if (edge.duct != wiring::no_duct) {
      const job::Sleeve& sleeve = site_.plan.sleeves[edge.duct];
      route.sleeve = sleeve.id;
      geometry::Polyline inner = sleeve.path;
      if (!backwards) std::reverse(inner.begin(), inner.end());
      for (std::size_t i = 1; i + 1 < inner.size(); ++i) route.path.push_back(inner[i]);
    }
    route.edges.push_back(by_edge_[node]);
    node = backwards ? edge.b : edge.a;
    route.path.push_back(ground_.nodes[node].at);
  }
  std::reverse(route.path.begin(), route.path.end());
  std::reverse(route.edges.begin(), route.edges.end());
  return route;
}

void SiteWays::dig(const SiteRoute& route) {
  for (const std::uint32_t edge : route.edges) dug_[edge] = 1;
}

}  // namespace duskwire::sites
