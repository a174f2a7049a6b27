// SPDX-License-Identifier: Apache-2.0
// Ways over the ground: lengths against what a tape would give, nothing through what is blocked, closed or kept off.
#include "wiring/ground_graph.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "geometry/polygon.hpp"
#include "wiring/ways.hpp"

namespace duskwire::wiring {
namespace {

using geometry::Point2;
using geometry::Polygon;

const Polygon house = {{10, -5}, {20, -5}, {20, 5}, {10, 5}};

// What the cheapest way from the first to the second terminal costs; infinite where there is none.
struct Found {
  double cost = HUGE_VAL;
  WayPtr way;
};
Found cheapest(const GroundGraph& graph) {
  PlanProblem problem;
  problem.ground = graph;
  const Layout layout(problem);
  Ways ways(problem.ground);
  ways.start(graph.terminals[0], layout, 0);
  while (true) {
    const std::uint32_t at = ways.next();
    if (at == none) return {};
    if (at == graph.terminals[1]) return {ways.cost(at), ways.way_to(at)};
  }
}

GroundMap lawn(double dig_per_m = 4) {
  GroundMap map;
  map.open_dig_per_m = dig_per_m;
  return map;
}

TEST(GroundGraph, GoesStraightOverOpenLawn) {
  const Found found = cheapest(ground_graph(lawn(), {{0, 0}, {12, 5}}));
  EXPECT_NEAR(found.cost, 4 * 13, 1e-9);
}

TEST(GroundGraph, GoesRoundAHouseByTheShortWay) {
  GroundMap map = lawn(1);
  map.patches.push_back({house, 4, true, false, false});
  const Found found = cheapest(ground_graph(map, {{5, 0}, {25, 0}}));
  // Tight round two corners: twice the hypotenuse of 5 by 5, and the house's side.
  const double tight_m = 2 * std::hypot(5, 5) + 10;
  EXPECT_GE(found.cost, tight_m);
  EXPECT_LE(found.cost, tight_m + 1.2) << "a trench keeps off a wall by a foot, not more";
}

TEST(GroundGraph, TakesTheBedWhereDiggingIsCheap) {
  GroundMap map = lawn(9);
  map.patches.push_back({{{0, 2}, {30, 2}, {30, 4}, {0, 4}}, 1, false, false, true});
  const Found found = cheapest(ground_graph(map, {{0, 0}, {30, 0}}));
  EXPECT_LT(found.cost, 9 * 30 * 0.4) << "straight through the lawn costs 270";
  // At best it dips in and out at a slant; no less than the bed's whole length.
  EXPECT_GT(found.cost, 30);
}

TEST(GroundGraph, CrossesADriveOnlyByADuct) {
  GroundMap map = lawn();
  map.patches.push_back({{{10, -40}, {14, -40}, {14, 40}, {10, 40}}, 90, true, false, false});
  map.boundary = {{-5, -30}, {30, -30}, {30, 30}, {-5, 30}};
  EXPECT_EQ(cheapest(ground_graph(map, {{5, 0}, {20, 0}})).cost, HUGE_VAL);
  map.ducts.push_back({{{9.5, 8}, {14.5, 8}}, 0.5});
  const Found found = cheapest(ground_graph(map, {{5, 0}, {20, 0}}));
  const double dug_m = std::hypot(4.5, 8) + std::hypot(5.5, 8);
  EXPECT_NEAR(found.cost, 4 * dug_m + 0.5 * 5, 4 * 0.5);
}

TEST(GroundGraph, LaysASleeveUnderPavingAndSaysWhere) {
  GroundMap map = lawn();
  map.patches.push_back({{{4, -50}, {6, -50}, {6, 50}, {4, 50}}, 50, false, true, false});
  const GroundGraph graph = ground_graph(map, {{0, 0}, {10, 0}});
  const Found found = cheapest(graph);
  EXPECT_NEAR(found.cost, 4 * 8 + 50 * 2, 1e-9);
  double sleeve_m = 0;
  for (const std::uint32_t e : found.way->edges) {
    const GroundEdge& edge = graph.edges[e];
    for (std::size_t k = 0; k + 1 < edge.hard_shares.size(); k += 2) {
      sleeve_m += (edge.hard_shares[k + 1] - edge.hard_shares[k]) * edge.length_m;
    }
  }
  EXPECT_NEAR(sleeve_m, 2, 1e-9);
}

TEST(GroundGraph, DigsNothingAlongAClosedWayButReachesItsEnds) {
  GroundMap map = lawn();
  map.closed_ways.push_back({{0, 0}, {10, 0}});
  const GroundGraph graph = ground_graph(map, {{0, 0}, {10, 0}});
  const Found found = cheapest(graph);
  ASSERT_NE(found.cost, HUGE_VAL);
  EXPECT_GT(found.cost, 4 * 10.2);
  for (const std::uint32_t e : found.way->edges) {
    const Point2 a = graph.nodes[graph.edges[e].a].at;
    const Point2 b = graph.nodes[graph.edges[e].b].at;
    const bool along = std::abs(a.y_m) < 0.25 && std::abs(b.y_m) < 0.25 && graph.edges[e].length_m > 1.4;
    EXPECT_FALSE(along) << a.x_m << " to " << b.x_m;
  }
}

TEST(GroundGraph, KeepsItsDistanceFromAPool) {
  GroundMap map = lawn();
  const Polygon pool = {{8, -2}, {12, -2}, {12, 2}, {8, 2}};
  map.keep_off.push_back({pool, 3});
  const GroundGraph graph = ground_graph(map, {{0, 0}, {20, 0}});
  ASSERT_NE(cheapest(graph).cost, HUGE_VAL);
  for (const GroundEdge& edge : graph.edges) {
    EXPECT_GE(geometry::distance_m(pool, geometry::Polyline{graph.nodes[edge.a].at, graph.nodes[edge.b].at}), 3.0);
  }
}

TEST(GroundGraph, ReachesWhatStandsInAWallFromBesideIt) {
  GroundMap map = lawn();
  map.patches.push_back({{{-20, 3}, {20, 3}, {20, 3.4}, {-20, 3.4}}, 4, true, false, false});
  const GroundGraph graph = ground_graph(map, {{0, 0}, {0, 3.2}});
  const Found found = cheapest(graph);
  EXPECT_NEAR(found.cost, 4 * 3.2, 0.5);
  EXPECT_FALSE(graph.nodes[graph.terminals[1]].joint_allowed);
  EXPECT_TRUE(graph.nodes[found.way->nodes[found.way->nodes.size() - 2]].joint_allowed);
}

TEST(GroundGraph, IsTheSameEachTimeAndSharesEqualPoints) {
  const std::vector<Point2> points = {{0, 0}, {7, 3}, {0, 0}, {2, 9}};
  GroundMap map = lawn();
  map.patches.push_back({house, 4, true, false, false});
  const GroundGraph first = ground_graph(map, points);
  const GroundGraph second = ground_graph(map, points);
  EXPECT_EQ(first.terminals[0], first.terminals[2]);
  ASSERT_EQ(first.edges.size(), second.edges.size());
  for (std::size_t e = 0; e < first.edges.size(); ++e) {
    EXPECT_EQ(first.edges[e].a, second.edges[e].a);
    EXPECT_EQ(first.edges[e].b, second.edges[e].b);
    EXPECT_EQ(first.edges[e].dig_cost, second.edges[e].dig_cost);
  }
}

}  // namespace
}  // namespace duskwire::wiring
