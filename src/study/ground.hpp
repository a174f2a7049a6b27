// SPDX-License-Identifier: Apache-2.0
// Kinds of ground as rules and sentences name them, and what a route lies under, summed by kind. Which area counts
// where several overlap: job/plan_ground.hpp.
#pragma once

#include <map>
#include <string_view>

#include "geometry/point.hpp"
#include "job/plan.hpp"
#include "job/plan_ground.hpp"

namespace duskwire::study {

// As in documents: "root_zone".
[[nodiscard]] std::string_view ground_key(job::GroundKind kind);
// As in sentences: "a root zone", "the lawn".
[[nodiscard]] std::string_view ground_words(job::GroundKind kind);

struct GroundAlong {
  std::map<job::GroundKind, double> length_m;  // by kind
  double unknown_m = 0;                        // outside every area
};

[[nodiscard]] GroundAlong ground_along(const job::PlanGround& ground, const geometry::Polyline& route);

}  // namespace duskwire::study
