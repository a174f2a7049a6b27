// SPDX-License-Identifier: Apache-2.0
// Upright solids over an outline, as triangles: what buildings, walls, decks and treads are to rays.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <vector>

#include "geometry/point.hpp"
#include "geometry/triangle_mesh.hpp"

namespace duskwire::geometry {

// Triangles that cover the outline, as indices of its points; concave outlines too. Of one that crosses itself some
// part may stay open.
[[nodiscard]] std::vector<std::array<std::size_t, 3>> triangulated(const Polygon& outline);

// Sides, top and bottom of the solid between two heights. Nothing for an outline of fewer than three points.
void add_prism(TriangleMesh& mesh, const Polygon& outline, double from_z_m, double to_z_m, std::uint32_t thing);

}  // namespace duskwire::geometry
