// SPDX-License-Identifier: Apache-2.0
// The places of a garden that levels are taken on, with their points: walks, drives, terraces, beds and lawns as grids
// on the ground, steps tread by tread, faces of buildings and walls, crowns of trees. Internal to the room.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "light/illuminance.hpp"
#include "study/garden_light.hpp"
#include "study/levels.hpp"

namespace duskwire::study {

// Eye height for light upright on faces (EN 13201 and the handbooks take 1.5 m).
inline constexpr double eye_height_m = 1.5;

// Figures on every place. Faces that get less than `least_face_lx` anywhere are left out, so are dark crowns.
// Where `only` names an area, a face or a tree, on that one alone.
[[nodiscard]] std::vector<PlaceLevels> place_levels(const job::Job& job, const GardenLight& garden,
                                                    const std::string& only = "");
inline constexpr double least_face_lx = 0.1;

// Of points' light, in their order.
[[nodiscard]] LuxFigures lux_figures(const std::vector<light::Receiver>& receivers, const float* lx);

// Which place an area is; nothing for what is not judged (water, streets, roofs).
[[nodiscard]] std::optional<LitPlace> place_of_area(const job::Area& area);

}  // namespace duskwire::study
