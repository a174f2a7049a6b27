// SPDX-License-Identifier: Apache-2.0
// A luminous area as many lamps: near a long strip or a broad opening one point is a poor model (values.md 5.3: a disk
// is 1 % off at five times its diameter).
#pragma once

#include <vector>

#include "light/scene.hpp"

namespace duskwire::light {

// The lamp parted into equal ones over a rectangle square to its aim, around its position: `along_m` in the direction
// of its zero, `across_m` square to that. Their shares add up to the lamp's.
[[nodiscard]] std::vector<Lamp> spread_over_rectangle(const Lamp& lamp, double along_m, double across_m,
                                                      int count_along, int count_across);

// The same over a disk, in rings of equal width, each lamp for an equal area: 3 rings^2 lamps.
[[nodiscard]] std::vector<Lamp> spread_over_disk(const Lamp& lamp, double diameter_m, int rings);

}  // namespace duskwire::light
