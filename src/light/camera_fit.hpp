// SPDX-License-Identifier: Apache-2.0
// A camera fitted to marked places by least squares of their distance on the picture (Levenberg and Marquardt), with
// the focal length held near a value by how well that is known.
#pragma once

#include <optional>
#include <span>

#include "light/calibrate.hpp"

namespace duskwire::light {

// What is held about the focal length before any place is looked at.
struct FocalPrior {
  double focal_px = 0;
  double error_share = 0;  // one standard deviation of ln(focal)
};

// What a wall's size lacks.
struct WallSizes {
  double width_m = 0;   // of the adjoining wall
  double height_m = 0;  // of both
};

struct CameraFit {
  Camera camera;
  WallSizes sizes;
  double cost = 0;  // sum of squares, each over its standard deviation; the prior is one of them
  std::array<Unknowns, unknown_count> covariance{};
  double width_variance_m2 = 0;
  double height_variance_m2 = 0;
};

// Where a known place is, given the sizes that were not known.
[[nodiscard]] inline geometry::Point3 site_of(const KnownPoint& point, const WallSizes& sizes) {
  return point.site + sizes.width_m * point.along + sizes.height_m * point.rise;
}

// Nothing where a place comes to lie behind the camera, or the places leave the camera open.
[[nodiscard]] std::optional<CameraFit> fit_camera(const Camera& start, const WallSizes& sizes,
                                                  std::span<const KnownPoint> points, double click_error_px,
                                                  const FocalPrior& prior);

}  // namespace duskwire::light
