// SPDX-License-Identifier: Apache-2.0
// The triangles of a mesh that can be met: both casters are built from this list, so that neither sees what the other
// does not.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "geometry/triangle_mesh.hpp"

namespace duskwire::geometry {

struct Corners {
  std::array<float, 3> a_m{};
  std::array<float, 3> b_m{};
  std::array<float, 3> c_m{};
  std::uint32_t triangle = 0;  // its number in the mesh
  float side_m = 0;            // no side is longer; up to 1.8 times the longest
};

// Leaves out triangles without area, with corners that do not exist, are not finite or lie beyond 1e6 km: single
// precision could not tell such a corner's products from infinity.
[[nodiscard]] std::vector<Corners> sound_triangles(const TriangleMesh& mesh);

}  // namespace duskwire::geometry
