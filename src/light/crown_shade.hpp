// SPDX-License-Identifier: Apache-2.0
// What crowns leave of light: Beer and Lambert along the chord through an upright ellipsoid (scene.hpp, Crown).
#pragma once

#include <span>

#include "light/receiver_block.hpp"

namespace duskwire::light {

// 0 to 1: the share of light left on the way from one place to another. Either may lie within the crown: only the piece
// of the chord between them counts.
[[nodiscard]] double crown_share(const Crown& crown, geometry::Point3 from, geometry::Point3 to);

// Whether a crown can touch any way from `from` into the ball around `to`.
[[nodiscard]] bool crown_near(const Crown& crown, geometry::Point3 from, geometry::Point3 to, double radius_m);

// lx[i] becomes what the crowns leave of it on its way from `from` to the block's place i.
void shade_by_crowns(std::span<const Crown> crowns, geometry::Point3 from, const ReceiverBlock& block,
                     ReceiverBlock::Numbers& lx);

}  // namespace duskwire::light
