// SPDX-License-Identifier: Apache-2.0
// From the ground of a site to a graph of ways along which cable may be laid: what a metre costs by patch of ground,
// what nobody digs through, ducts as cheap edges, places where a joint may lie. Costs are in any one unit of money.
#pragma once

#include <cstdint>
#include <vector>

#include "geometry/point.hpp"

namespace duskwire::wiring {

// A piece of ground. Where patches overlap the first of the list counts.
struct Patch {
  geometry::Polygon outline;
  double dig_per_m = 0;
  bool blocked = false;       // no way leads through; what stands in it is reached by the shortest way from outside
  bool hard = false;          // crossed only in a sleeve that has to be laid: part of dig_per_m
  bool joint_allowed = true;  // a joint may be buried here
};

// A sleeve that is there.
struct Duct {
  geometry::Polyline path;
  double pull_per_m = 0;
};

// Nobody digs nearer than that.
struct KeepOff {
  geometry::Polygon outline;
  double distance_m = 0;
};

struct GroundMap {
  std::vector<Patch> patches;
  double open_dig_per_m = 0;   // outside every patch
  geometry::Polygon boundary;  // no way leads outside; empty: none known
  std::vector<Duct> ducts;
  std::vector<KeepOff> keep_off;
  std::vector<geometry::Polyline> closed_ways;  // nothing is dug along these, their last half metre apart
};

inline constexpr std::uint32_t no_duct = 0xffffffffu;

struct GroundNode {
  geometry::Point2 at;
  bool joint_allowed = true;
};

struct GroundEdge {
  std::uint32_t a = 0;
  std::uint32_t b = 0;
  double length_m = 0;
  double dig_cost = 0;              // of the whole edge, once
  std::uint32_t duct = no_duct;     // it runs through that duct
  std::vector<double> hard_shares;  // where a sleeve has to be laid: from, to, from, to ... as shares of the edge
};

struct GroundGraph {
  std::vector<GroundNode> nodes;
  std::vector<GroundEdge> edges;
  std::vector<std::uint32_t> terminals;  // node of each point that was asked for, in their order
};

// Every terminal becomes a node; equal points share one. The graph may fall into parts: what cannot be reached is for
// the caller to tell. The same input gives the same graph.
[[nodiscard]] GroundGraph ground_graph(const GroundMap& map, const std::vector<geometry::Point2>& terminals);

}  // namespace duskwire::wiring
