// SPDX-License-Identifier: Apache-2.0
#include "light/calibrate.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "light/camera_fit.hpp"
#include "light/camera_start.hpp"

namespace duskwire::light {
namespace {

constexpr std::size_t fewest_places = 4;
// A lens of 30 mm in 35 mm terms, half to double of it: telephones and common cameras (common practice, no source).
constexpr double usual_lens_share = 30 / 43.27;
constexpr double usual_lens_error = 0.6;
// The focal length counts as told by the picture where it is known better than this.
constexpr double told_error_share = 0.15;
// Fits are alike where their sums of squares differ by no more than two standard deviations would make.
constexpr double alike_cost = 4;
// Heights to begin with where a wall's is not known, as shares of its width: eaves of a shed to a narrow door.
constexpr double first_heights[] = {0.25, 0.4, 0.65, 1, 1.6, 2.5};
constexpr double apart_share = 0.05;  // of the distance to the places: nearer ones are the same camera

// Level and square to the wall, to its far side: the camera sees its left end left.
geometry::Vec3 away_from_camera(const KnownRectangle& wall) {
  return unit(cross(geometry::Vec3{0, 0, 1}, wall.right - wall.left));
}

KnownPoint top_of(const KnownRectangle& wall, PixelPoint pixel, geometry::Point3 foot, geometry::Vec3 along = {}) {
  if (wall.height_m > 0) return {pixel, foot + geometry::Vec3{0, 0, wall.height_m}, along, {}};
  return {pixel, foot, along, {0, 0, 1}};
}

std::vector<KnownPoint> places_of(const CalibrationProblem& problem) {
  std::vector<KnownPoint> out;
  if (problem.wall) {
    const KnownRectangle& wall = *problem.wall;
    out = {{wall.corners[0], wall.left},
           {wall.corners[1], wall.right},
           top_of(wall, wall.corners[2], wall.right),
           top_of(wall, wall.corners[3], wall.left)};
  }
  if (problem.wall && problem.adjoining) {
    const KnownRectangle& wall = *problem.wall;
    const bool is_left =
        problem.adjoining->lower.x_px + problem.adjoining->upper.x_px < wall.corners[0].x_px + wall.corners[1].x_px;
    const geometry::Point3 foot = is_left ? wall.left : wall.right;
    const geometry::Vec3 away = away_from_camera(wall);
    out.push_back({problem.adjoining->lower, foot, away});
    out.push_back(top_of(wall, problem.adjoining->upper, foot, away));
  }
  out.insert(out.end(), problem.points.begin(), problem.points.end());
  return out;
}

double turn_of(PixelPoint a, PixelPoint b, PixelPoint c) {
  return (b.x_px - a.x_px) * (c.y_px - b.y_px) - (b.y_px - a.y_px) * (c.x_px - b.x_px);
}

std::optional<Error> trouble_with(const KnownRectangle& wall) {
  const double width_m = std::hypot(wall.right.x_m - wall.left.x_m, wall.right.y_m - wall.left.y_m);
  if (!(width_m > 0) || !(wall.height_m >= 0)) {
    return Error{ErrorCode::invalid,
                 "The known wall has no width or a height below 0: give two lower corners that lie apart, and its "
                 "height, or 0 where that is not known."};
  }
  // Bottom left, bottom right, top right, top left turn left all the way; y runs down the picture.
  for (std::size_t i = 0; i < 4; ++i) {
    if (turn_of(wall.corners[i], wall.corners[(i + 1) % 4], wall.corners[(i + 2) % 4]) < 0) continue;
    return Error{ErrorCode::invalid,
                 "The corners of the known wall are out of order, or three of them lie on a line: mark bottom left, "
                 "bottom right, top right, top left as they are seen on the picture."};
  }
  return std::nullopt;
}

std::optional<Error> trouble_with(const CalibrationProblem& problem, std::size_t places) {
  if (!(problem.width_px > 0) || !(problem.height_px > 0)) {
    return Error{ErrorCode::invalid, "The size of the photograph is not known: open the picture once."};
  }
  if (problem.wall) {
    if (auto trouble = trouble_with(*problem.wall)) return trouble;
  }
  if (problem.wall && problem.wall->height_m == 0 && !problem.adjoining && !problem.focal_px &&
      problem.points.empty()) {
    return Error{
        ErrorCode::invalid,
        "The known wall's height is not given, and nothing else tells it: give the height, mark the far end of "
        "a second wall that meets it at a right angle, or give the camera's focal length."};
  }
  if (places >= fewest_places) return std::nullopt;
  return Error{ErrorCode::invalid,
               fmt::format("{} known places are marked, and a camera needs {}: outline a wall of known width and "
                           "height, or mark points whose place in the garden is measured.",
                           places, fewest_places)};
}

double distance_px(PixelPoint a, PixelPoint b) { return std::hypot(a.x_px - b.x_px, a.y_px - b.y_px); }

void add_residuals(Calibrated& out, std::span<const KnownPoint> places, const WallSizes& sizes) {
  double squares = 0;
  for (const KnownPoint& place : places) {
    const auto computed = pixel_from_site(out.camera, site_of(place, sizes));
    const double off = computed ? distance_px(*computed, place.pixel) : 0;
    out.distances_px.push_back(off);
    squares += off * off;
  }
  out.residual_px = std::sqrt(squares / static_cast<double>(places.size()));
}

double distance_to(const Camera& camera, std::span<const KnownPoint> places) {
  double sum_m = 0;
  for (const KnownPoint& place : places) sum_m += length(place.site - camera.position);
  return sum_m / static_cast<double>(places.size());
}

// Where the places miss by more than the click error lets expect, the click error was too small: all errors grow.
double growth_of(const CalibrationProblem& problem, double cost, std::size_t places) {
  const double unknowns = static_cast<double>(unknown_count) + (problem.adjoining ? 1 : 0) +
                          (problem.wall && problem.wall->height_m == 0 ? 1 : 0);
  return std::max(1.0, cost / (2.0 * static_cast<double>(places) + 1 - unknowns));
}

void add_errors(Calibrated& out, const CameraFit& fit, double growth, std::span<const KnownPoint> places) {
  out.covariance = fit.covariance;
  for (Unknowns& row : out.covariance) {
    for (double& each : row) each *= growth;
  }
  const auto variance = [&](std::size_t i) { return out.covariance[i][i]; };
  out.turn_error_deg = std::sqrt(variance(0) + variance(1) + variance(2)) * 180 / std::numbers::pi;
  const double by_size_m = out.size_error_share * distance_to(fit.camera, places);
  out.position_error_m = std::sqrt(variance(3) + variance(4) + variance(5) + by_size_m * by_size_m);
  out.focal_error_px = fit.camera.focal_px * std::sqrt(variance(6));
  out.adjoining_error_m =
      std::hypot(std::sqrt(growth * fit.width_variance_m2), out.size_error_share * fit.sizes.width_m);
  out.wall_height_error_m =
      std::hypot(std::sqrt(growth * fit.height_variance_m2), out.size_error_share * fit.sizes.height_m);
}

// How far a first camera sees the adjoining wall reach; a guess where its end is not seen on that plane at all.
double first_width_m(const Camera& start, const KnownRectangle& wall, const KnownPoint& far_foot) {
  const geometry::Vec3 along = unit(wall.right - wall.left);
  const auto met = site_from_pixel(start, far_foot.pixel, far_foot.site, along);
  const double width_m = met ? dot(*met - far_foot.site, far_foot.along) : 0;
  const double wall_m = length(wall.right - wall.left);
  return std::abs(width_m) > 0.05 * wall_m && std::abs(width_m) < 20 * wall_m ? width_m : wall_m / 2;
}

std::vector<double> heights_to_try(const CalibrationProblem& problem) {
  std::vector<double> out;
  if (!problem.wall || problem.wall->height_m > 0) return {0};
  for (const double share : first_heights) out.push_back(share * length(problem.wall->right - problem.wall->left));
  return out;
}

// The places as they would be if the unknown height were this.
std::vector<KnownPoint> at_height(std::span<const KnownPoint> places, double height_m) {
  std::vector<KnownPoint> out(places.begin(), places.end());
  for (KnownPoint& place : out) {
    place.site = place.site + height_m * place.rise;
    place.rise = {};
  }
  return out;
}

// The fits of all starts, best first, each camera once.
std::vector<CameraFit> fits_of(const CalibrationProblem& problem, const Camera& frame,
                               std::span<const KnownPoint> places, const FocalPrior& prior) {
  std::vector<CameraFit> fits;
  const bool has_adjoining = problem.wall && problem.adjoining;
  for (const double height_m : heights_to_try(problem)) {
    for (const Camera& start : first_cameras(frame, at_height(places, height_m), problem.wall ? 4 : 0)) {
      const double width_m = has_adjoining ? first_width_m(start, *problem.wall, places[4]) : 0;
      const auto fit = fit_camera(start, {width_m, height_m}, places, problem.click_error_px, prior);
      if (fit && fit->sizes.height_m >= 0) fits.push_back(*fit);
    }
  }
  std::stable_sort(fits.begin(), fits.end(), [](const CameraFit& a, const CameraFit& b) { return a.cost < b.cost; });
  std::vector<CameraFit> apart;
  for (const CameraFit& fit : fits) {
    const double near_m = apart_share * distance_to(fit.camera, places);
    const bool is_known = std::any_of(apart.begin(), apart.end(), [&](const CameraFit& other) {
      return length(other.camera.position - fit.camera.position) < near_m;
    });
    if (!is_known) apart.push_back(fit);
  }
  return apart;
}

}  // namespace

Result<Calibrated> calibrate(const CalibrationProblem& problem) {
  const std::vector<KnownPoint> places = places_of(problem);
  if (const auto trouble = trouble_with(problem, places.size())) return *trouble;
  Camera frame;
  frame.width_px = problem.width_px;
  frame.height_px = problem.height_px;
  frame.principal = problem.principal.value_or(PixelPoint{problem.width_px / 2, problem.height_px / 2});
  frame.focal_px = problem.focal_px.value_or(0);
  const FocalPrior prior =
      problem.focal_px
          ? FocalPrior{*problem.focal_px, problem.focal_error_share}
          : FocalPrior{usual_lens_share * std::hypot(problem.width_px, problem.height_px), usual_lens_error};
  const std::vector<CameraFit> fits = fits_of(problem, frame, places, prior);
  if (fits.empty()) {
    return Error{
        ErrorCode::invalid,
        "No camera fits the marked places: they lie on one line, or a place in the garden is wrong. Mark a wall "
        "of known size, or points that spread over the picture."};
  }
  const CameraFit& best = fits.front();
  Calibrated out;
  out.camera = best.camera;
  out.click_error_px = problem.click_error_px;
  out.size_error_share = problem.size_error_share;
  if (problem.wall && problem.adjoining) out.adjoining_width_m = best.sizes.width_m;
  if (problem.wall && problem.wall->height_m == 0) out.wall_height_m = best.sizes.height_m;
  const double growth = growth_of(problem, best.cost, places.size());
  add_residuals(out, places, best.sizes);
  add_errors(out, best, growth, places);
  const bool is_told = out.focal_error_px <= told_error_share * out.camera.focal_px;
  out.focal_from = problem.focal_px ? FocalFrom::given : is_told ? FocalFrom::picture : FocalFrom::assumed;
  if (fits.size() > 1 && fits[1].cost - best.cost < alike_cost * growth) {
    out.rival_position = fits[1].camera.position;
  }
  return out;
}

}  // namespace duskwire::light
