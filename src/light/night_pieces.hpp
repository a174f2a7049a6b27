// SPDX-License-Identifier: Apache-2.0
// Outlines as elements of a picture: an element belongs to an outline that holds its middle (even-odd rule).
#pragma once

#include <cstdint>
#include <functional>

#include "geometry/pixel.hpp"

namespace duskwire::light {

// Calls with each run of elements of a row that lies inside: row, first, one past the last.
void for_each_run(const geometry::PixelOutline& outline, std::uint32_t width_px, std::uint32_t height_px,
                  const std::function<void(std::uint32_t, std::uint32_t, std::uint32_t)>& run);

}  // namespace duskwire::light
