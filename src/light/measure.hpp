// SPDX-License-Identifier: Apache-2.0
// Lengths on a photograph whose camera is known, each with its error: of the ends as they were marked, of the camera,
// and of the sizes that everything was scaled by.
#pragma once

#include "base/result.hpp"
#include "light/calibrate.hpp"

namespace duskwire::light {

struct Measured {
  double length_m = 0;
  double error_m = 0;  // one standard deviation; 1.96 of them hold 95 % of cases
  geometry::Point3 from;
  geometry::Point3 to;
};

// Both ends lie on a plane. An error where an end does not meet it in front of the camera.
[[nodiscard]] Result<Measured> length_on_plane(const Calibrated& calibrated, PixelPoint from, PixelPoint to,
                                               geometry::Point3 on_plane, geometry::Vec3 normal);

// Upright over a foot that stands on a plane, such as the ground.
[[nodiscard]] Result<Measured> height_at_foot(const Calibrated& calibrated, PixelPoint foot, PixelPoint top,
                                              geometry::Point3 on_ground, geometry::Vec3 ground_normal);

}  // namespace duskwire::light
