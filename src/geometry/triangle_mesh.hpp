// SPDX-License-Identifier: Apache-2.0
// What stands in the way of light: triangles in the site frame, opaque from both sides.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "geometry/point.hpp"

namespace duskwire::geometry {

struct TriangleMesh {
  std::vector<std::array<float, 3>> points_m;
  std::vector<std::array<std::uint32_t, 3>> triangles;  // indices into points_m
  std::vector<std::uint32_t> thing;                     // per triangle: whose it is, as the maker numbers things

  bool operator==(const TriangleMesh&) const = default;
};

}  // namespace duskwire::geometry
