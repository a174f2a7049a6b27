// SPDX-License-Identifier: Apache-2.0
// Where something in the ground lies, as a crew finds it again: two tape lengths from points that stay, and on which
// side of the line between them. Two lengths alone leave two places, mirror images of each other.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "job/job.hpp"

namespace duskwire::study {

enum class TapeSide : std::uint8_t { unknown = 0, left = 1, right = 2 };

struct TapeOffset {
  std::string point;  // id of a fixed point of the plan
  std::string name;
  double distance_m = 0;
};

struct TapeOffsets {
  TapeOffset first;
  TapeOffset second;
  TapeSide side = TapeSide::unknown;  // walking from the first point to the second
  bool measured = false;              // on site; else taken off the plan
};

// From the two fixed points that fix the place best: near, and seen from it at a good angle. Nothing where the plan has
// fewer than two, or all lie in line with the place. What is nearer to a point than 0.1 m is in line with any.
[[nodiscard]] std::optional<TapeOffsets> plan_offsets(const job::Plan& plan, geometry::Point2 place);

// As recorded where the record has both lengths, else off the plan.
[[nodiscard]] std::optional<TapeOffsets> joint_offsets(const job::Plan& plan, const job::Joint& joint);

}  // namespace duskwire::study
