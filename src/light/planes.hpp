// SPDX-License-Identifier: Apache-2.0
// Planes that hang on a known wall: walls that meet it at a right angle, the ground, a roof at its upper edge, steps
// before it. What is assumed about each is said where it is used.
#pragma once

#include "light/calibrate.hpp"

namespace duskwire::light {

struct Plane {
  geometry::Point3 on_plane;
  geometry::Vec3 normal;  // of unit length, to the side of the camera; for level ones upwards
};

struct HungPlanes {
  Plane wall;
  Plane left_wall;  // at the left edge, as the camera sees it
  Plane right_wall;
  bool left_is_outer = true;  // the camera sees past the house's corner; else the two walls meet in an inner corner
  bool right_is_outer = true;
  Plane ground;  // grade, z = 0: below the wall's lower edge where that was marked above a plinth
  Plane roof;    // rises from the upper edge away from the camera at roof_pitch_deg
  Plane steps;   // rises towards the wall at steps_pitch_deg
};

// A usual roof (7 in 12) and usual outdoor steps (6 in. over 12 in.): common practice, no source.
inline constexpr double roof_pitch_deg = 30;
inline constexpr double steps_pitch_deg = 27;

[[nodiscard]] HungPlanes hung_planes(const KnownRectangle& wall, const Camera& camera);

}  // namespace duskwire::light
