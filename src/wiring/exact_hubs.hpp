// SPDX-License-Identifier: Apache-2.0
// Places where three trenches meet best: points that a small site's program may use besides its lamps.
#pragma once

#include <cstdint>
#include <vector>

#include "geometry/point.hpp"

namespace duskwire::wiring {

// Of every three of the first `terminals` points, by what meeting there spares over the two shorter sides of the
// triangle: the best so many that are not crowded by another point.
[[nodiscard]] std::vector<geometry::Point2> meeting_places(const std::vector<geometry::Point2>& points,
                                                           std::size_t terminals, std::size_t most);

}  // namespace duskwire::wiring
