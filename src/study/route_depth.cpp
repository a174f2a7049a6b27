// SPDX-License-Identifier: Apache-2.0
#include "study/route_depth.hpp"

#include <algorithm>
#include <string>

#include "estimate/ground_stretches.hpp"
#include "job/plan_ground.hpp"
#include "study/ground.hpp"

namespace duskwire::study {
namespace {

constexpr double usual_cover_m = 0.2;  // common practice, no source
constexpr double least_crossing_m = 0.05;

double asked_m(const Ruleset& ruleset, const std::string& ground) {
  double most_m = 0;
  for (const Rule& rule : ruleset.rules) {
    if (rule.check != "cover-depth" || !is_in_force(rule)) continue;
    const auto table = rule.tables.find("cover_m");
    if (table == rule.tables.end()) continue;
    const auto found = table->second.find(ground);
    if (found != table->second.end()) most_m = std::max(most_m, found->second);
  }
  return most_m;
}

}  // namespace

double RouteDepths::cover_for(const job::Cable& cable, const job::Plan& plan) const {
  const job::PlanGround ground(plan);
  const GroundAlong along = ground_along(ground, cable.path);
  double cover_m = usual_cover_m;
  for (const auto& [kind, length_m] : along.length_m) {
    const bool in_sleeve = !cable.sleeve.empty() && estimate::is_hard(kind);
    if (length_m >= least_crossing_m && !in_sleeve)
      cover_m = std::max(cover_m, asked_m(ruleset_, std::string(ground_key(kind))));
  }
  if (along.unknown_m >= least_crossing_m) cover_m = std::max(cover_m, asked_m(ruleset_, "other"));
  return cover_m;
}

}  // namespace duskwire::study
