// SPDX-License-Identifier: Apache-2.0
// A place on a picture: x right, y down, in picture elements from the top left corner of the top left element.
#pragma once

#include <vector>

namespace duskwire::geometry {

struct PixelPoint {
  double x_px = 0;
  double y_px = 0;

  bool operator==(const PixelPoint&) const = default;
};

// Closed, first point not repeated.
using PixelOutline = std::vector<PixelPoint>;

}  // namespace duskwire::geometry
