// SPDX-License-Identifier: Apache-2.0
// Sleeves that are in the ground already, and where a cable runs through one: there it is pulled, not dug in.
#pragma once

#include <string>
#include <vector>

#include "job/job.hpp"

namespace duskwire::estimate {

// How far a cable as drawn may lie beside the sleeve as drawn. Common practice, no source.
inline constexpr double sleeve_reach_m = 0.4;

class LaidSleeves {
 public:
  // All sleeves of the plan but those still to be laid. The plan outlives this.
  LaidSleeves(const job::Plan& plan, const std::vector<std::string>& sleeves_to_lay);

  // Those that serve a cable: the one that it names, and each whose whole length lies along its path.
  [[nodiscard]] std::vector<const job::Sleeve*> serving(const job::Cable& cable) const;
  // Null where there is none of that name.
  [[nodiscard]] const job::Sleeve* named(const std::string& id) const;

 private:
  std::vector<const job::Sleeve*> sleeves_;
};

// Whether a cable that they serve is in one of them at this point. In soft ground it comes out where the sleeve ends;
// hard ground counts as passed up to sleeve_reach_m beyond, as the edge of the paving is not drawn finer than that.
[[nodiscard]] bool runs_through(const std::vector<const job::Sleeve*>& sleeves, geometry::Point2 point, bool hard);

[[nodiscard]] double length_m(const geometry::Polyline& line);

}  // namespace duskwire::estimate
