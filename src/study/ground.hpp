// SPDX-License-Identifier: Apache-2.0
// What the plan says of the ground: the kind at a point, and along a route. Where areas overlap the smaller one counts
// (a bed let into a patio, a drive across the lawn), but a root zone or a forbidden zone only where nothing else lies.
#pragma once

#include <map>
#include <optional>
#include <string_view>
#include <vector>

#include "geometry/point.hpp"
#include "job/plan.hpp"

namespace duskwire::study {

// As in documents: "root_zone".
[[nodiscard]] std::string_view ground_key(job::GroundKind kind);
// As in sentences: "a root zone", "the lawn".
[[nodiscard]] std::string_view ground_words(job::GroundKind kind);

struct GroundAlong {
  std::map<job::GroundKind, double> length_m;  // by kind
  double unknown_m = 0;                        // outside every area
};

class Ground {
 public:
  explicit Ground(const job::Plan& plan);  // the plan outlives this
  [[nodiscard]] bool empty() const { return areas_.empty(); }
  [[nodiscard]] std::optional<job::GroundKind> at(geometry::Point2 point) const;
  [[nodiscard]] GroundAlong along(const geometry::Polyline& route) const;

 private:
  std::vector<const job::Area*> areas_;  // in the order in which they count
};

}  // namespace duskwire::study
