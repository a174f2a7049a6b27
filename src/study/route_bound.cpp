// SPDX-License-Identifier: Apache-2.0
#include "study/route_bound.hpp"

#include <algorithm>

#include "wiring/steiner_bound.hpp"

namespace duskwire::study {
namespace {

using namespace wiring;

// The cheapest transformers that carry so much in all: of each type as large a part as is needed, which no whole number
// of them undercuts.
double least_units_cost(const PlanProblem& problem) {
  double lamp_va = 0;
  for (const PlanLamp& lamp : problem.lamps) lamp_va += lamp.load.power_va;
  double least_per_va = HUGE_VAL;
  double least_whole = HUGE_VAL;
  for (const Place& place : problem.places) {
    for (const std::uint32_t type : place.types) {
      const double cost = problem.units[type].cost + place.unit_cost;
      least_per_va = std::min(least_per_va, cost / problem.units[type].rating_va);
      if (problem.units[type].rating_va >= lamp_va) least_whole = std::min(least_whole, cost);
    }
  }
  // One unit alone at its price, or several at the best price a volt-ampere.
  double least_one = HUGE_VAL;
  for (const Place& place : problem.places) {
    for (const std::uint32_t type : place.types)
      least_one = std::min(least_one, problem.units[type].cost + place.unit_cost);
  }
  return std::min(least_whole, std::max(least_per_va * lamp_va, least_one));
}

}  // namespace

double route_bound(const RouteProblem& asked) {
  const PlanProblem& problem = asked.problem;
  double least_per_m = HUGE_VAL;
  for (const CableType& type : problem.cables) least_per_m = std::min(least_per_m, type.cost_per_m);
  // All places are joined by one node more, for nothing: which of them is used is free.
  Graph graph{static_cast<std::uint32_t>(problem.ground.nodes.size()) + 1, {}};
  for (const GroundEdge& edge : problem.ground.edges) {
    graph.edges.push_back({edge.a, edge.b, edge.dig_cost + edge.length_m * least_per_m});
  }
  const std::uint32_t source = graph.nodes - 1;
  for (const Place& place : problem.places) graph.edges.push_back({source, place.node, 0});
  std::vector<std::uint32_t> terminals{source};
  for (const PlanLamp& lamp : problem.lamps) terminals.push_back(lamp.node);
  std::sort(terminals.begin(), terminals.end());
  terminals.erase(std::unique(terminals.begin(), terminals.end()), terminals.end());
  const Neighbours neighbours(graph);
  // The bound holds however early it is ended: a large site would take many seconds for the last per cent.
  constexpr int most_rounds = 3000;
  int rounds = 0;
  const Effort effort{1, 0, [&rounds] { return ++rounds < most_rounds; }};
  Budget budget(effort);
  return steiner_bound(graph, neighbours, terminals, budget) + least_units_cost(problem);
}

}  // namespace duskwire::study
