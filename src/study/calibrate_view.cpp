// SPDX-License-Identifier: Apache-2.0
#include "study/calibrate_view.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "light/measure.hpp"
#include "light/planes.hpp"
#include "study/wording.hpp"

namespace duskwire::study {
namespace {

using geometry::PixelPoint;

constexpr double share_95 = 1.96;         // of a normal distribution, both sides
constexpr double loose_share = 0.25;      // a length less sure than this is told
constexpr double miss_factor = 3;         // marks that miss by more than this many click errors are told
constexpr double lowest_camera_m = -0.5;  // under the wall's foot

PixelPoint scaled(PixelPoint p, double scale) { return {p.x_px * scale, p.y_px * scale}; }

light::KnownRectangle rectangle_of(const job::KnownWall& wall, double scale) {
  light::KnownRectangle out;
  for (std::size_t i = 0; i < 4; ++i) out.corners[i] = scaled(wall.corners_px[i], scale);
  out.left = wall.left;
  out.right = wall.right;
  out.height_m = wall.height_m;
  return out;
}

light::CalibrationProblem problem_of(const job::Calibration& calibration, double width_px, double height_px,
                                     double scale) {
  light::CalibrationProblem out;
  out.width_px = width_px;
  out.height_px = height_px;
  if (calibration.focal_px) out.focal_px = *calibration.focal_px * scale;
  if (calibration.principal_point_px) out.principal = scaled(*calibration.principal_point_px, scale);
  if (calibration.wall && calibration.wall->corners_px.size() == 4) {
    out.wall = rectangle_of(*calibration.wall, scale);
    const geometry::PixelOutline& far = calibration.adjoining_px;
    if (far.size() == 2) out.adjoining = light::AdjoiningWall{scaled(far[0], scale), scaled(far[1], scale)};
  }
  for (const job::ViewReference& each : calibration.references) {
    out.points.push_back({scaled(each.pixel_px, scale), each.site});
  }
  out.click_error_px = calibration.click_error_px * scale;
  out.size_error_share = calibration.size_error_pct / 100;
  return out;
}

// What a marked place is called, in the order of the fit.
std::string place_name(const job::Calibration& calibration, std::size_t index) {
  static constexpr const char* corners[] = {"lower left", "lower right", "upper right", "upper left"};
  if (calibration.wall) {
    if (index < 4) return fmt::format("the {} corner of the wall", corners[index]);
    index -= 4;
    if (calibration.adjoining_px.size() == 2) {
      if (index < 2) return fmt::format("the {} far corner of the second wall", index == 0 ? "lower" : "upper");
      index -= 2;
    }
  }
  return fmt::format("known point {}", index + 1);
}

void tell_focal(CalibratedView& out) {
  const light::Calibrated& found = *out.calibrated;
  if (found.focal_from != light::FocalFrom::assumed) return;
  out.findings.push_back(fmt::format(
      "The wall is seen nearly square on, so the picture does not tell how long the lens was: about {:.0f} "
      "px, give or take {:.0f}. Give the camera's focal length, or mark known points off this wall, such as "
      "the far corners of a second wall that was measured too. Lengths on the wall itself are good all the same.",
      found.camera.focal_px, found.focal_error_px));
}

void tell_misses(CalibratedView& out, const job::Calibration& calibration) {
  const light::Calibrated& found = *out.calibrated;
  if (found.residual_px <= miss_factor * found.click_error_px) return;
  const auto worst = std::max_element(found.distances_px.begin(), found.distances_px.end());
  out.findings.push_back(
      fmt::format("The marked places miss the camera that fits best by {:.1f} px, where {:.1f} px was expected. {} is "
                  "the worst, {:.1f} px off: check where it is marked, and the sizes that were given.",
                  found.residual_px, found.click_error_px,
                  place_name(calibration, static_cast<std::size_t>(worst - found.distances_px.begin())), *worst));
}

void tell_place(CalibratedView& out, const job::View& view, job::DisplayUnits units) {
  const light::Calibrated& found = *out.calibrated;
  if (found.rival_position) {
    out.findings.emplace_back(
        "A second place of the camera fits nearly as well. Mark a known point away from the wall, or a second wall.");
  }
  const auto& wall = view.calibration->wall;
  if (wall && found.camera.position.z_m < std::min(wall->left.z_m, wall->right.z_m) + lowest_camera_m) {
    out.findings.emplace_back(
        "The camera comes out below the foot of the wall: check that the lower corners are marked where the wall meets "
        "the ground, and the wall's height.");
  }
  if (!view.position) return;
  const double apart_m = length(*view.position - found.camera.position);
  if (apart_m > 3 * found.position_error_m + 0.5) {
    out.findings.push_back(
        fmt::format("The camera was measured {} from where the picture puts it (give or take {}): check the "
                    "measured place, or the sizes of the wall.",
                    worded(apart_m, distance_unit(units)), worded(found.position_error_m, distance_unit(units))));
  }
}

light::Plane ground_of(const job::View& view) {
  for (const job::PictureSurface& surface : view.surfaces) {
    if (surface.kind == job::SurfaceKind::ground) return {surface.on_plane, unit(surface.normal)};
  }
  return {{0, 0, 0}, {0, 0, 1}};
}

Result<light::Measured> measured(const job::View& view, const light::Calibrated& camera,
                                 const job::PictureMeasure& measure) {
  if (measure.surface.empty()) {
    const light::Plane ground = ground_of(view);
    return light::height_at_foot(camera, measure.from_px, measure.to_px, ground.on_plane, ground.normal);
  }
  for (const job::PictureSurface& surface : view.surfaces) {
    if (surface.id != measure.surface) continue;
    return light::length_on_plane(camera, measure.from_px, measure.to_px, surface.on_plane, unit(surface.normal));
  }
  return Error{ErrorCode::not_found,
               fmt::format("The surface \"{}\" that it lies on is not outlined on this view.", measure.surface)};
}

void add_measures(CalibratedView& out, const job::View& view) {
  for (const job::PictureMeasure& measure : view.measures) {
    MeasuredLength& told = out.measures.emplace_back();
    told.id = measure.id;
    told.name = measure.name;
    const Result<light::Measured> length = measured(view, *out.calibrated, measure);
    if (!length) {
      told.problem = length.error().message;
      continue;
    }
    told.length_m = length.value().length_m;
    told.error_m = length.value().error_m;
    told.error_95_m = share_95 * told.error_m;
    if (told.error_m <= loose_share * *told.length_m) continue;
    out.findings.push_back(
        fmt::format("{} is sure only to {:.0f} %: its surface is seen at a flat angle, or lies far from the wall. Mark "
                    "it on a surface that faces the camera, or mark more known places.",
                    measure.name.empty() ? fmt::format("Length \"{}\"", measure.id) : measure.name,
                    100 * told.error_m / *told.length_m));
  }
}

std::string corner_note(bool is_outer) {
  return is_outer ? "At a right angle, around the house's corner" : "At a right angle, in an inner corner";
}

void add_planes(CalibratedView& out, const job::KnownWall& wall) {
  light::KnownRectangle rectangle = rectangle_of(wall, 1);
  rectangle.height_m = out.calibrated->wall_height_m.value_or(rectangle.height_m);
  const light::HungPlanes hung = light::hung_planes(rectangle, out.calibrated->camera);
  const auto add = [&](const char* id, const char* name, job::SurfaceKind kind, const light::Plane& plane,
                       std::string note) {
    out.planes.push_back({id, name, kind, plane.on_plane, plane.normal, std::move(note)});
  };
  add("wall", "The known wall", job::SurfaceKind::wall, hung.wall, "");
  add("left-wall", "Wall at its left edge", job::SurfaceKind::wall, hung.left_wall, corner_note(hung.left_is_outer));
  add("right-wall", "Wall at its right edge", job::SurfaceKind::wall, hung.right_wall,
      corner_note(hung.right_is_outer));
  add("ground", "Ground", job::SurfaceKind::ground, hung.ground, "Level, at grade");
  add("roof", "Roof", job::SurfaceKind::roof, hung.roof,
      fmt::format("From the wall's upper edge, taken to rise at {:.0f} degrees", light::roof_pitch_deg));
  add("steps", "Steps", job::SurfaceKind::steps, hung.steps,
      fmt::format("From grade at the wall, taken to rise at {:.0f} degrees towards the wall", light::steps_pitch_deg));
}

}  // namespace

Result<light::Calibrated> calibrated_view(const job::View& view, double width_px, double height_px) {
  if (!view.calibration) {
    return Error{
        ErrorCode::invalid,
        fmt::format("View \"{}\" has no camera yet: outline a wall of known width and height on it.", view.id)};
  }
  if (view.calibration->wall && view.calibration->wall->corners_px.size() != 4) {
    return Error{ErrorCode::invalid, "The known wall needs its four corners marked on the picture."};
  }
  if (view.calibration->method == job::CalibrationMethod::focal_length && !view.calibration->focal_px) {
    return Error{ErrorCode::invalid,
                 "The camera is to be fixed by its focal length, but none is given: give it, or choose another way."};
  }
  const double scale = view.width_px > 0 && width_px > 0 ? width_px / view.width_px : 1;
  return light::calibrate(problem_of(*view.calibration, width_px, height_px, scale));
}

CalibratedView calibrate_view(const job::View& view, job::DisplayUnits units) {
  CalibratedView out;
  const Result<light::Calibrated> found = calibrated_view(view, view.width_px, view.height_px);
  if (!found) {
    out.problem = found.error().message;
    return out;
  }
  out.calibrated = found.value();
  tell_focal(out);
  tell_misses(out, *view.calibration);
  tell_place(out, view, units);
  add_measures(out, view);
  if (view.calibration->wall) add_planes(out, *view.calibration->wall);
  return out;
}

}  // namespace duskwire::study
