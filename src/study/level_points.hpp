// SPDX-License-Identifier: Apache-2.0
// Points on which light is taken: over an outline, along a line, on an upright face, on a crown. Internal to the room.
#pragma once

#include <vector>

#include "geometry/strip.hpp"
#include "job/plan.hpp"
#include "light/illuminance.hpp"

namespace duskwire::study {

using Receivers = std::vector<light::Receiver>;

// Middles of square cells of about `cell_m` within the outline, at `z_m`, facing up. Cells grow where there would be
// more than `most`, and shrink until a narrow outline has at least three rows.
[[nodiscard]] Receivers level_points(const geometry::Polygon& outline, double z_m, double cell_m,
                                     std::size_t most = 4000);

// Along the middle of a walk, facing up.
[[nodiscard]] Receivers centre_points(const geometry::Strip& strip, double z_m, double step_m);

// Upright planes at a place: the four ways that a face may turn, given one of them.
[[nodiscard]] Receivers upright_points(geometry::Point3 place, geometry::Point2 way);

// Cells of an upright face between two points of the ground, facing `out`, a hair before it.
[[nodiscard]] Receivers face_points(geometry::Point2 from, geometry::Point2 to, geometry::Point2 out, double low_m,
                                    double high_m, double cell_m);

// On the skin of a crown, facing out, spread evenly.
[[nodiscard]] Receivers crown_points(const light::Crown& crown, std::size_t count);

// Whether a place lies within a building, wall, deck or tread of the plan.
[[nodiscard]] bool within_solid(const job::Plan& plan, geometry::Point3 place);

}  // namespace duskwire::study
