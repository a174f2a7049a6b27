// SPDX-License-Identifier: Apache-2.0
// A small planner's problem to vary: lamps of 8 VA on open lawn, one transformer place, three cables, two transformers.
#pragma once

#include <utility>
#include <vector>

#include "wiring/plan_problem.hpp"

namespace duskwire::wiring {

inline constexpr double lawn_dig_per_m = 4;

inline PlanLamp plan_lamp(double power_va = 8) {
  PlanLamp lamp;
  lamp.load.kind = electrical::LoadKind::regulated_led;
  lamp.load.power_va = power_va;
  lamp.load.rated_v = 12;
  lamp.load.v_cut_off = 7;
  lamp.load.v_regulation_min = 10;
  lamp.floor_v = 10;
  lamp.window_max_v = 15;
  lamp.lead_ohm = 0.04;
  return lamp;
}

// The last points are places, the others lamps. `map` says what lies between.
inline PlanProblem plan_problem(const std::vector<geometry::Point2>& lamps, const std::vector<geometry::Point2>& places,
                                GroundMap map = {}) {
  PlanProblem problem;
  if (map.open_dig_per_m == 0) map.open_dig_per_m = lawn_dig_per_m;
  std::vector<geometry::Point2> points = lamps;
  points.insert(points.end(), places.begin(), places.end());
  problem.ground = ground_graph(map, points);
  for (std::size_t i = 0; i < lamps.size(); ++i) {
    problem.lamps.push_back(plan_lamp());
    problem.lamps.back().node = problem.ground.terminals[i];
  }
  problem.cables = {{0.0132, 1.5, 10, 1}, {0.0083, 2, 15, 2}, {0.0052, 3, 20, 3}};  // 16, 14 and 12 AWG, copper at 20 C
  problem.units = {{120, 1, 12.5, {12, 13, 14, 15}, 0.03, 0.03, 200},
                   {480, 2, 25, {12, 13, 14, 15}, 0.013, 0.007, 500}};
  for (std::size_t p = 0; p < places.size(); ++p) {
    Place place;
    place.node = problem.ground.terminals[lamps.size() + p];
    place.types = {0, 1};
    problem.places.push_back(place);
  }
  problem.devices_a = {5, 7.5, 10, 15, 20, 25};
  problem.joints = JointCosts(4);
  for (std::uint32_t wires = 2; wires <= 6; ++wires) {
    for (std::uint32_t thin = 0; thin < 4; ++thin) {
      for (std::uint32_t thick = thin; thick < 4; ++thick)
        problem.joints.at(wires, thin, thick) = {6.0 + wires, 0.001, true};
    }
  }
  problem.cable_end_cost = 1;
  return problem;
}

}  // namespace duskwire::wiring
