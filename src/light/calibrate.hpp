// SPDX-License-Identifier: Apache-2.0
// The camera of a photograph from what is known on it: an upright rectangle of known size, further known points, the
// focal length. A first camera comes in closed form; then all marked places together are fitted by least squares of
// their distance on the picture, and the click error is carried through to what is measured later.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "base/result.hpp"
#include "light/camera.hpp"

namespace duskwire::light {

// A place that is known, or known but for the width of the adjoining wall or the height of both walls: then it lies at
// site + width * along + height * rise.
struct KnownPoint {
  PixelPoint pixel;
  geometry::Point3 site;
  geometry::Vec3 along{};
  geometry::Vec3 rise{};
};

// Corners as seen on the picture: bottom left, bottom right, top right, top left. `left` and `right` are its lower
// corners in the garden; the upper ones stand height_m over them. A height of 0 is not known: then it is fitted too,
// and what the picture lacks by that, an adjoining wall, a focal length or further points must tell.
struct KnownRectangle {
  std::array<PixelPoint, 4> corners;
  geometry::Point3 left;
  geometry::Point3 right;
  double height_m = 0;
};

// The far end of a second wall that meets the known one at a right angle and is as high, of unknown width. Seen
// over a corner both tell the focal length better than one; where one is seen square on, neither does.
struct AdjoiningWall {
  PixelPoint lower;
  PixelPoint upper;
};

struct CalibrationProblem {
  double width_px = 0;
  double height_px = 0;
  std::optional<double> focal_px;       // known beforehand
  double focal_error_share = 0.03;      // of it, one standard deviation (common practice, no source)
  std::optional<PixelPoint> principal;  // where absent the middle of the picture
  std::optional<KnownRectangle> wall;
  std::optional<AdjoiningWall> adjoining;  // only beside a wall
  std::vector<KnownPoint> points;
  double click_error_px = 2;    // one standard deviation of each coordinate of a marked place
  double size_error_share = 0;  // of all known sizes together, one standard deviation
};

// What told the focal length: the marked places, a value known beforehand, or neither (a usual lens was assumed).
enum class FocalFrom : std::uint8_t { picture = 0, given = 1, assumed = 2 };

// The seven unknowns in the order of the covariance: turn about the camera's own axes (rad), place (m), ln(focal).
inline constexpr std::size_t unknown_count = 7;
using Unknowns = std::array<double, unknown_count>;

struct Calibrated {
  Camera camera;
  FocalFrom focal_from = FocalFrom::picture;
  double residual_px = 0;            // root mean square of the distances of marked from computed places
  std::vector<double> distances_px;  // of each marked place: the wall's corners, the adjoining wall's, the points
  double focal_error_px = 0;         // this and the following: one standard deviation
  double position_error_m = 0;
  double turn_error_deg = 0;
  std::optional<double> adjoining_width_m;  // away from the camera; negative: towards it
  double adjoining_error_m = 0;
  std::optional<double> wall_height_m;  // where it was not known
  double wall_height_error_m = 0;
  std::array<Unknowns, unknown_count> covariance{};
  double click_error_px = 2;
  double size_error_share = 0;
  std::optional<geometry::Point3> rival_position;  // a second camera that fits nearly as well stands here
};

// Errors tell what is missing or cannot be: too few places, places on one line, corners out of order.
[[nodiscard]] Result<Calibrated> calibrate(const CalibrationProblem& problem);

// The camera after a small step of its unknowns.
[[nodiscard]] Camera stepped(const Camera& camera, const Unknowns& step);

}  // namespace duskwire::light
