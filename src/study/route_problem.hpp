// SPDX-License-Identifier: Apache-2.0
// A job as the planner's problem, with the way back from its indices to the job. Internal to the room.
#pragma once

#include <string>
#include <vector>

#include "study/route.hpp"
#include "study/route_goods.hpp"
#include "wiring/plan_problem.hpp"

namespace duskwire::study {

// A place where a transformer may hang: one that the job has, or a receptacle.
struct RoutePlace {
  std::uint32_t transformer = 0xffffffffu;  // of the job
  std::uint32_t receptacle = 0xffffffffu;   // of the plan
};

struct RouteProblem {
  wiring::PlanProblem problem;
  std::vector<std::uint32_t> luminaires;     // of the job, by lamp of the problem
  std::vector<RoutePlace> places;            // by place
  std::vector<std::uint32_t> kept_cables;    // of the job, by kept cable counted tree by tree
  std::vector<bool> kept_reversed;           // drawn towards its supply
  std::vector<geometry::Polyline> own_ways;  // of edges beyond the first own_edge: ways of kept cables
  std::uint32_t own_edge = 0;
  std::vector<RouteObstacle> obstacles;  // what keeps a lamp or a pin out of the problem
};

[[nodiscard]] RouteProblem route_problem(const job::Job& job, const Ruleset& ruleset, const RouteRequest& request,
                                         const RouteGoods& goods);

}  // namespace duskwire::study
