// SPDX-License-Identifier: Apache-2.0
// The camera of a photograph: a pinhole with square picture elements. Picture frame: geometry/pixel.hpp. Camera frame:
// x right, y down, z into the picture.
#pragma once

#include <array>
#include <optional>

#include "geometry/pixel.hpp"
#include "geometry/point.hpp"
#include "geometry/vec3.hpp"

namespace duskwire::light {

using geometry::PixelPoint;

struct Camera {
  double width_px = 0;
  double height_px = 0;
  double focal_px = 0;
  PixelPoint principal;  // mostly the middle of the picture
  geometry::Point3 position;
  // Rows: the camera's x, y, z as unit ways in the site frame (camera_from_site).
  std::array<geometry::Vec3, 3> axes{geometry::Vec3{1, 0, 0}, geometry::Vec3{0, 0, -1}, geometry::Vec3{0, 1, 0}};

  bool operator==(const Camera&) const = default;
};

// Nothing where the place lies behind the camera.
[[nodiscard]] std::optional<PixelPoint> pixel_from_site(const Camera& camera, geometry::Point3 place);

// The way, of unit length, in which a pixel looks.
[[nodiscard]] geometry::Vec3 way_from_pixel(const Camera& camera, PixelPoint pixel);

// Where a pixel's ray meets a plane (a point of it and its normal). Nothing where it does not, or behind the camera.
[[nodiscard]] std::optional<geometry::Point3> site_from_pixel(const Camera& camera, PixelPoint pixel,
                                                              geometry::Point3 on_plane, geometry::Vec3 normal);

}  // namespace duskwire::light
