// SPDX-License-Identifier: Apache-2.0
// Light where nobody asked for it: leaving the lot over its line, on a neighbour's window, and upwards. Internal to the
// room.
#pragma once

#include <vector>

#include "study/garden_light.hpp"
#include "study/levels.hpp"
#include "study/lit_lamps.hpp"

namespace duskwire::study {

// On upright planes in the property line, of the light that goes outwards, from the ground up to `spill_top_m`.
[[nodiscard]] std::vector<SpillEdge> property_line_spill(const job::Job& job, const GardenLight& garden,
                                                         const std::vector<LitLamp>& lamps);
inline constexpr double spill_top_m = 4.5;

[[nodiscard]] std::vector<WindowSpill> window_spill(const job::Job& job, const GardenLight& garden,
                                                    const std::vector<LitLamp>& lamps);

// Share of a lamp's light that leaves it above the level.
[[nodiscard]] double upward_share(const light::Distribution& distribution, const light::Lamp& lamp);

}  // namespace duskwire::study
