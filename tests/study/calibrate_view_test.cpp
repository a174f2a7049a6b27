// SPDX-License-Identifier: Apache-2.0
// From a view of a job to its camera, its lengths and what it says where the picture does not tell enough. The marks
// are projected by a known camera: level, 1.5 m up, 3000 px of focal length.
#include "study/calibrate_view.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace duskwire::study {
namespace {

using geometry::PixelPoint;
using geometry::Point3;
using geometry::Vec3;

light::Camera camera_at(Point3 eye, double turn_deg) {
  const double turn_rad = turn_deg * std::acos(-1.0) / 180;
  light::Camera camera;
  camera.width_px = 4000;
  camera.height_px = 3000;
  camera.focal_px = 3000;
  camera.principal = {2000, 1500};
  camera.position = eye;
  const Vec3 ahead{std::sin(turn_rad), std::cos(turn_rad), 0};
  camera.axes = {Vec3{ahead.y, -ahead.x, 0}, Vec3{0, 0, -1}, ahead};
  return camera;
}

// A wall of 8 m by 3 m along the x axis, a door on it, a post 2 m before it.
job::View view_from(const light::Camera& camera) {
  const auto seen = [&](Point3 place) { return *pixel_from_site(camera, place); };
  job::View view;
  view.id = "front";
  view.width_px = 4000;
  view.height_px = 3000;
  job::Calibration& calibration = view.calibration.emplace();
  calibration.wall =
      job::KnownWall{{seen({0, 0, 0}), seen({8, 0, 0}), seen({8, 0, 3}), seen({0, 0, 3})}, {0, 0, 0}, {8, 0, 0}, 3, {}};
  view.surfaces.push_back({"wall", "Wall", job::SurfaceKind::wall, {}, {0, 0, 0}, {0, -1, 0}, std::nullopt, {}});
  view.measures.push_back({"door", "Door", "wall", seen({3, 0, 0}), seen({3, 0, 2.03}), {}});
  view.measures.push_back({"post", "Post", "", seen({5, -2, 0}), seen({5, -2, 1.2}), {}});
  return view;
}

TEST(CalibrateView, MeasuresOnASurfaceAndUprightAtAFoot) {
  const CalibratedView found = calibrate_view(view_from(camera_at({-2, -9, 1.5}, 30)));
  ASSERT_TRUE(found.calibrated) << found.problem;
  EXPECT_TRUE(found.findings.empty()) << found.findings.front();
  ASSERT_EQ(found.measures.size(), 2u);
  EXPECT_NEAR(*found.measures[0].length_m, 2.03, 0.005);
  EXPECT_NEAR(*found.measures[1].length_m, 1.2, 0.01);
  EXPECT_GE(found.measures[0].error_m, 0.0203);  // 1 % of the known sizes, at least
  EXPECT_NEAR(found.measures[0].error_95_m, 1.96 * found.measures[0].error_m, 1e-12);
  ASSERT_EQ(found.planes.size(), 6u);
  EXPECT_EQ(found.planes[1].note, "At a right angle, around the house's corner");
}

TEST(CalibrateView, ASmallerPictureHasTheSameCameraInItsOwnElements) {
  const job::View view = view_from(camera_at({-2, -9, 1.5}, 30));
  const auto whole = calibrated_view(view, 4000, 3000);
  const auto half = calibrated_view(view, 2000, 1500);
  ASSERT_TRUE(whole.ok() && half.ok());
  EXPECT_NEAR(half.value().camera.focal_px, whole.value().camera.focal_px / 2, 1e-6);
  EXPECT_NEAR(length(half.value().camera.position - whole.value().camera.position), 0, 1e-6);
}

TEST(CalibrateView, SquareOnItSaysThatTheLensIsNotToldAndWhatCuresIt) {
  const CalibratedView found = calibrate_view(view_from(camera_at({4, -12, 1.5}, 0)));
  ASSERT_TRUE(found.calibrated);
  ASSERT_FALSE(found.findings.empty());
  EXPECT_NE(found.findings[0].find("nearly square on"), std::string::npos);
  EXPECT_NE(found.findings[0].find("Give the camera's focal length"), std::string::npos);
  EXPECT_NEAR(*found.measures[0].length_m, 2.03, 0.01);  // on the wall it is good all the same
}

TEST(CalibrateView, AMarkThatIsFarOffIsNamed) {
  job::View view = view_from(camera_at({-2, -9, 1.5}, 30));
  const light::Camera camera = camera_at({-2, -9, 1.5}, 30);
  for (const Point3 place : {Point3{2, -1, 0}, Point3{6, -1, 0}, Point3{4, -3, 0}, Point3{1, -2, 1}}) {
    view.calibration->references.push_back({*pixel_from_site(camera, place), place, {}});
  }
  view.calibration->references[2].pixel_px.x_px += 120;
  const CalibratedView found = calibrate_view(view);
  ASSERT_TRUE(found.calibrated);
  ASSERT_FALSE(found.findings.empty());
  EXPECT_NE(found.findings[0].find("known point 3 is the worst"), std::string::npos) << found.findings[0];
}

TEST(CalibrateView, WhatIsMissingIsSaid) {
  job::View view = view_from(camera_at({-2, -9, 1.5}, 30));
  view.calibration->method = job::CalibrationMethod::focal_length;
  EXPECT_NE(calibrate_view(view).problem.find("none is given"), std::string::npos);
  view.calibration->method = job::CalibrationMethod::vanishing_points;
  view.measures[0].surface = "gone";
  EXPECT_NE(calibrate_view(view).measures[0].problem.find("\"gone\""), std::string::npos);
  view.width_px = 0;
  EXPECT_NE(calibrate_view(view).problem.find("size of the photograph"), std::string::npos);
  view.calibration.reset();
  EXPECT_NE(calibrate_view(view).problem.find("no camera yet"), std::string::npos);
}

}  // namespace
}  // namespace duskwire::study
