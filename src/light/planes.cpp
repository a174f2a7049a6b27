// SPDX-License-Identifier: Apache-2.0
#include "light/planes.hpp"

#include <cmath>
#include <numbers>

namespace duskwire::light {
namespace {

using geometry::Point3;
using geometry::Vec3;

// Level lines along `along`, rising at a pitch towards `back`: which way such a plane faces.
Vec3 sloped_normal(Vec3 back, double pitch_deg) {
  const double pitch_rad = pitch_deg * std::numbers::pi / 180;
  return unit(std::cos(pitch_rad) * Vec3{0, 0, 1} - std::sin(pitch_rad) * back);
}

// A wall at an edge of the known one, facing the camera; outer where it faces away from the known wall.
Plane side_wall(Point3 edge, Vec3 outward, const Camera& camera, bool& is_outer) {
  is_outer = dot(camera.position - edge, outward) > 0;
  return {edge, is_outer ? outward : -outward};
}

}  // namespace

HungPlanes hung_planes(const KnownRectangle& wall, const Camera& camera) {
  const Vec3 along = unit(Vec3{wall.right.x_m - wall.left.x_m, wall.right.y_m - wall.left.y_m, 0});
  const Vec3 to_camera = cross(along, Vec3{0, 0, 1});
  HungPlanes out;
  out.wall = {wall.left, to_camera};
  out.left_wall = side_wall(wall.left, -along, camera, out.left_is_outer);
  out.right_wall = side_wall(wall.right, along, camera, out.right_is_outer);
  out.ground = {{wall.left.x_m, wall.left.y_m, 0}, {0, 0, 1}};
  out.roof = {wall.left + Vec3{0, 0, wall.height_m}, sloped_normal(-to_camera, roof_pitch_deg)};
  out.steps = {out.ground.on_plane, sloped_normal(-to_camera, steps_pitch_deg)};
  return out;
}

}  // namespace duskwire::light
