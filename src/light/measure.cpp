// SPDX-License-Identifier: Apache-2.0
// Errors by linear propagation: how the length changes with each unknown of the camera and each coordinate of both
// ends, by small steps to both sides.
#include "light/measure.hpp"

#include <cmath>
#include <functional>

namespace duskwire::light {
namespace {

using geometry::Point3;
using geometry::Vec3;

struct Ends {
  Point3 from;
  Point3 to;
};

// The two places of one camera and one pair of marks; nothing where they cannot be.
using Placing = std::function<std::optional<Ends>(const Camera&, PixelPoint, PixelPoint)>;

// An end further off than this many times the camera's distance to the other is past the horizon, for all purposes.
constexpr double farthest_share = 1e4;
// Steps for the slopes: small against what is measured, large against rounding.
constexpr double step_px = 0.05;
constexpr double step_share = 1e-5;

Error no_meeting() {
  return {ErrorCode::invalid,
          "An end of the length does not lie on this surface: it is at or above the surface's horizon on the picture. "
          "Mark it lower, or measure on another surface."};
}

std::optional<double> length_of(const std::optional<Ends>& ends) {
  if (!ends) return std::nullopt;
  return geometry::length(ends->to - ends->from);
}

Result<Measured> measured(const Calibrated& calibrated, PixelPoint from, PixelPoint to, const Placing& place) {
  const std::optional<Ends> ends = place(calibrated.camera, from, to);
  if (!ends) return no_meeting();
  Measured out{length(ends->to - ends->from), 0, ends->from, ends->to};
  if (!(out.length_m < farthest_share * (1 + length(ends->from - calibrated.camera.position)))) return no_meeting();
  double variance = 0;
  const auto slope = [](std::optional<double> low, std::optional<double> high, double step) {
    return low && high ? (*high - *low) / (2 * step) : std::nan("");
  };
  for (int coordinate = 0; coordinate < 4; ++coordinate) {
    const auto moved = [&](double by_px) {
      PixelPoint ends_px[2] = {from, to};
      PixelPoint& end = ends_px[coordinate / 2];
      (coordinate % 2 == 0 ? end.x_px : end.y_px) += by_px;
      return length_of(place(calibrated.camera, ends_px[0], ends_px[1]));
    };
    const double by_px = slope(moved(-step_px), moved(step_px), step_px) * calibrated.click_error_px;
    variance += by_px * by_px;
  }
  const double depth_m = length(ends->from - calibrated.camera.position);
  Unknowns slopes{};
  for (std::size_t i = 0; i < unknown_count; ++i) {
    const double step = i >= 3 && i < 6 ? step_share * depth_m : step_share;
    const auto moved = [&](double by) {
      Unknowns unknowns{};
      unknowns[i] = by;
      return length_of(place(stepped(calibrated.camera, unknowns), from, to));
    };
    slopes[i] = slope(moved(-step), moved(step), step);
  }
  for (std::size_t i = 0; i < unknown_count; ++i) {
    for (std::size_t k = 0; k < unknown_count; ++k) variance += slopes[i] * calibrated.covariance[i][k] * slopes[k];
  }
  const double by_size_m = calibrated.size_error_share * out.length_m;
  out.error_m = std::sqrt(variance + by_size_m * by_size_m);
  if (!std::isfinite(out.error_m)) return no_meeting();
  return out;
}

}  // namespace

Result<Measured> length_on_plane(const Calibrated& calibrated, PixelPoint from, PixelPoint to, Point3 on_plane,
                                 Vec3 normal) {
  return measured(calibrated, from, to,
                  [&](const Camera& camera, PixelPoint from_px, PixelPoint to_px) -> std::optional<Ends> {
                    const auto a = site_from_pixel(camera, from_px, on_plane, normal);
                    const auto b = site_from_pixel(camera, to_px, on_plane, normal);
                    if (!a || !b) return std::nullopt;
                    return Ends{*a, *b};
                  });
}

Result<Measured> height_at_foot(const Calibrated& calibrated, PixelPoint foot, PixelPoint top, Point3 on_ground,
                                Vec3 ground_normal) {
  return measured(calibrated, foot, top,
                  [&](const Camera& camera, PixelPoint foot_px, PixelPoint top_px) -> std::optional<Ends> {
                    const auto a = site_from_pixel(camera, foot_px, on_ground, ground_normal);
                    if (!a) return std::nullopt;
                    // The top lies over the foot: where its ray passes the upright plane that faces the camera there.
                    const Vec3 to_camera = camera.position - *a;
                    const Vec3 level = geometry::unit(Vec3{to_camera.x, to_camera.y, 0});
                    const auto b = site_from_pixel(camera, top_px, *a, level);
                    if (!b) return std::nullopt;
                    return Ends{*a, Point3{a->x_m, a->y_m, b->z_m}};
                  });
}

}  // namespace duskwire::light
