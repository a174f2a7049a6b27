// SPDX-License-Identifier: Apache-2.0
// Ways on the planner's graph as lines on the plan, and the sleeves that have to be laid where they cross paving. One
// sleeve serves every cable that takes the same way. Internal to the room.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "study/route_ids.hpp"
#include "study/route_problem.hpp"

namespace duskwire::study {

class RouteWays {
 public:
  // `plan` and `to_lay` receive the sleeves that are added.
  RouteWays(const job::Job& job, const RouteProblem& asked, job::Plan& plan, std::vector<std::string>& to_lay)
      : job_(job), asked_(asked), plan_(plan), to_lay_(to_lay), ids_(job) {}

  struct Drawn {
    geometry::Polyline path;
    double length_m = 0;
    std::string sleeve;  // the longest that it goes through
  };
  [[nodiscard]] Drawn draw(const wiring::PlanCable& cable);

 private:
  std::string sleeve_for(std::uint32_t edge, std::size_t stretch);
  const job::Job& job_;
  const RouteProblem& asked_;
  job::Plan& plan_;
  std::vector<std::string>& to_lay_;
  RouteIds ids_;
  std::map<std::pair<std::uint32_t, std::size_t>, std::string> laid_;
};

}  // namespace duskwire::study
