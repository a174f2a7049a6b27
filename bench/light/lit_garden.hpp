// SPDX-License-Identifier: Apache-2.0
// A made-up garden for the benchmark of light: rolling ground, a house, hedges and trunks of some 20,000 triangles,
// forty lamps, and the places that a camera sees of it.
#pragma once

#include <cstdint>
#include <vector>

#include "geometry/ray_caster.hpp"
#include "light/camera.hpp"
#include "light/scene.hpp"

namespace duskwire::bench {

[[nodiscard]] light::Scene lit_garden(int lamps);

// Looks down on the garden a little, so that nearly every element of its picture meets something.
[[nodiscard]] light::Camera garden_camera(double width_px, double height_px);

// One receiver per picture element that meets something, row by row.
[[nodiscard]] std::vector<light::Receiver> seen_places(const light::Scene& scene, const geometry::RayCaster& caster,
                                                       std::uint32_t width_px, std::uint32_t height_px);

}  // namespace duskwire::bench
