// SPDX-License-Identifier: Apache-2.0
// Lines of equal height over a raster: contours of a plan of light.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "geometry/point.hpp"

namespace duskwire::geometry {

// Heights at the nodes of a square lattice; row by row from the south, each from the west.
struct Lattice {
  Point2 origin;  // of the first node
  double cell_m = 1;
  std::size_t columns = 0;
  std::size_t rows = 0;
};

// The lines on which the height, linear along the lattice's edges, is `level`. A line that closes ends where it began.
// A node that is not a number breaks the lines at its cells.
[[nodiscard]] std::vector<Polyline> isolines(const Lattice& lattice, std::span<const float> heights, double level);

}  // namespace duskwire::geometry
