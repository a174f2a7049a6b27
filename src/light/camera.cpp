// SPDX-License-Identifier: Apache-2.0
#include "light/camera.hpp"

namespace duskwire::light {

using geometry::Point3;
using geometry::Vec3;

std::optional<PixelPoint> pixel_from_site(const Camera& camera, Point3 place) {
  const Vec3 seen = place - camera.position;
  const double depth_m = dot(camera.axes[2], seen);
  if (!(depth_m > 0)) return std::nullopt;
  const double scale_px = camera.focal_px / depth_m;
  return PixelPoint{camera.principal.x_px + scale_px * dot(camera.axes[0], seen),
                    camera.principal.y_px + scale_px * dot(camera.axes[1], seen)};
}

Vec3 way_from_pixel(const Camera& camera, PixelPoint pixel) {
  const double right = (pixel.x_px - camera.principal.x_px) / camera.focal_px;
  const double down = (pixel.y_px - camera.principal.y_px) / camera.focal_px;
  return unit(right * camera.axes[0] + down * camera.axes[1] + camera.axes[2]);
}

std::optional<Point3> site_from_pixel(const Camera& camera, PixelPoint pixel, Point3 on_plane, Vec3 normal) {
  const Vec3 way = way_from_pixel(camera, pixel);
  const double against = dot(way, normal);
  if (against == 0) return std::nullopt;
  const double t = dot(on_plane - camera.position, normal) / against;
  if (!(t > 0)) return std::nullopt;
  return camera.position + t * way;
}

}  // namespace duskwire::light
