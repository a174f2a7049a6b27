// SPDX-License-Identifier: Apache-2.0
// What one lamp does to a block of receivers with nothing in the way: E = I cos(i) / r^2.
#pragma once

#include "geometry/vec3.hpp"
#include "light/lookup_grid.hpp"
#include "light/receiver_block.hpp"

namespace duskwire::light {

// The frame of distribution.hpp in the site, with `aim` for -z.
struct LampFrame {
  geometry::Point3 position;
  geometry::Vec3 x{1, 0, 0};
  geometry::Vec3 y{0, 1, 0};
  geometry::Vec3 aim{0, 0, -1};
  double share = 1;
};

[[nodiscard]] LampFrame lamp_frame(const Lamp& lamp);

// Never less than what any receiver of the block gets.
[[nodiscard]] float at_most_lx(const LampFrame& lamp, const LookupGrid& grid, const ReceiverBlock& block);

// out[i] for each of the block's places, the repeated ones too.
void unshadowed_lx(const LampFrame& lamp, const LookupGrid& grid, const ReceiverBlock& block,
                   ReceiverBlock::Numbers& out_lx);

}  // namespace duskwire::light
