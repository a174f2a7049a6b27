// SPDX-License-Identifier: Apache-2.0
// A binary tree of boxes over triangles, built by the surface area heuristic in bins (Wald, "On fast construction of
// SAH-based bounding volume hierarchies", 2007): what a ray must be asked of shrinks to the boxes that it meets.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "geometry/sound_triangles.hpp"

namespace duskwire::geometry {

// A leaf holds `count` triangles from `first`; an inner node (count 0) has its two children at `first` and `first` + 1.
struct BoxNode {
  std::array<float, 3> low_m{};
  std::uint32_t first = 0;
  std::array<float, 3> high_m{};
  std::uint32_t count = 0;
};

struct BoxTree {
  // No path from the root is longer: below half of it, splits go by number and halve.
  static constexpr int deepest = 80;

  std::vector<BoxNode> nodes;      // root first; empty without triangles
  std::vector<Corners> triangles;  // in the order of the leaves
};

[[nodiscard]] BoxTree build_box_tree(std::vector<Corners> triangles);

}  // namespace duskwire::geometry
