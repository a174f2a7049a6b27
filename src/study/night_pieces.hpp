// SPDX-License-Identifier: Apache-2.0
// The outlines of a view as pieces of a night picture, back to front: sky, surfaces, windows, trees.
#pragma once

#include <string>
#include <vector>

#include "geometry/ray_caster.hpp"
#include "job/job.hpp"
#include "light/night.hpp"

namespace duskwire::study {

struct NightPieces {
  std::vector<light::NightPiece> pieces;
  std::vector<std::string> ids;
  std::vector<std::string> names;
};

// `scale_x` and `scale_y`: elements of the picture per element of the view.
[[nodiscard]] NightPieces night_pieces(const job::Plan& plan, const job::View& view, geometry::Point3 camera,
                                       double scale_x, double scale_y);

// A wall of the photograph that lies a little behind what the plan has there would be in its own shade: it is brought
// forward onto it. Returns how far, in m; 0 where it stays.
[[nodiscard]] double bring_forward(light::NightPiece& piece, const light::Camera& camera,
                                   const geometry::RayCaster& caster);

}  // namespace duskwire::study
