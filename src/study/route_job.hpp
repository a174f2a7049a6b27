// SPDX-License-Identifier: Apache-2.0
// The planner's answer as an ordinary job: cables with ways, depths and sleeves, joints with connectors, transformers
// with taps and devices, sleeves to lay. Internal to the room.
#pragma once

#include <string>
#include <vector>

#include "study/route_problem.hpp"
#include "study/rules.hpp"

namespace duskwire::study {

struct RoutedJob {
  job::Job job;
  std::vector<std::string> sleeves_to_lay;
  std::vector<std::string> cable_ids;  // by cable of the answer
};

[[nodiscard]] RoutedJob routed_job(const job::Job& job, const Ruleset& ruleset, const RouteGoods& goods,
                                   const RouteProblem& asked, const wiring::PlanAnswer& answer);

}  // namespace duskwire::study
