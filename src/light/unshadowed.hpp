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

// Ways of shadow rays from a lamp to each place, lifted off its surface; `from` is the share of the way that is kept
// clear around the lamp.
struct ShadowWays {
  alignas(64) ReceiverBlock::Numbers x;
  alignas(64) ReceiverBlock::Numbers y;
  alignas(64) ReceiverBlock::Numbers z;
  alignas(64) ReceiverBlock::Numbers from;
};
void find_shadow_ways(geometry::Point3 lamp, const ReceiverBlock& block, float lift_m, float clear_m, ShadowWays& ways);

}  // namespace duskwire::light
