// SPDX-License-Identifier: Apache-2.0
#include "geometry/sound_triangles.hpp"

#include <algorithm>
#include <cmath>

#include "geometry/vec3.hpp"

namespace duskwire::geometry {
namespace {

constexpr float farthest_m = 1e9F;

bool usable(const std::array<float, 3>& corner_m) {
  // A number that is not one fails the comparison.
  return std::all_of(corner_m.begin(), corner_m.end(), [](float x_m) { return std::abs(x_m) <= farthest_m; });
}

Vec3 between(const std::array<float, 3>& from_m, const std::array<float, 3>& to_m) {
  return {double{to_m[0]} - double{from_m[0]}, double{to_m[1]} - double{from_m[1]},
          double{to_m[2]} - double{from_m[2]}};
}

// A way along the axes: the length or a little more.
float sum_of_sides_m(const std::array<float, 3>& from_m, const std::array<float, 3>& to_m) {
  return std::abs(to_m[0] - from_m[0]) + std::abs(to_m[1] - from_m[1]) + std::abs(to_m[2] - from_m[2]);
}

}  // namespace

std::vector<Corners> sound_triangles(const TriangleMesh& mesh) {
  std::vector<Corners> sound;
  sound.reserve(mesh.triangles.size());
  for (std::size_t i = 0; i < mesh.triangles.size(); ++i) {
    const auto& [a, b, c] = mesh.triangles[i];
    if (std::max({a, b, c}) >= mesh.points_m.size()) continue;
    Corners corners{mesh.points_m[a], mesh.points_m[b], mesh.points_m[c], static_cast<std::uint32_t>(i), 0};
    if (!usable(corners.a_m) || !usable(corners.b_m) || !usable(corners.c_m)) continue;
    const Vec3 normal = cross(between(corners.a_m, corners.b_m), between(corners.a_m, corners.c_m));
    if (!(dot(normal, normal) > 0)) continue;
    corners.side_m = std::max({sum_of_sides_m(corners.a_m, corners.b_m), sum_of_sides_m(corners.b_m, corners.c_m),
                               sum_of_sides_m(corners.c_m, corners.a_m)});
    sound.push_back(corners);
  }
  return sound;
}

}  // namespace duskwire::geometry
