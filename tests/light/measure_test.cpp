// SPDX-License-Identifier: Apache-2.0
// Lengths on photographs: closed forms by similar triangles, and one real photograph.
#include "light/measure.hpp"

#include <gtest/gtest.h>

#include "light/planes.hpp"
#include "light/synthetic_camera.hpp"

namespace duskwire::light {
namespace {

using geometry::Point3;

// A level camera 1.5 m over the ground, 10 m before a plane: one metre there is focal / 10 elements.
Calibrated level_camera() {
  Calibrated out;
  out.camera.width_px = 4000;
  out.camera.height_px = 3000;
  out.camera.focal_px = 3000;
  out.camera.principal = {2000, 1500};
  out.camera.position = {0, -10, 1.5};
  out.click_error_px = 3;
  return out;
}

TEST(Measure, OnAPlaneSquareToTheViewAMetreIsFocalOverDistance) {
  const auto measured = length_on_plane(level_camera(), {2000, 1500}, {2600, 1500}, {0, 0, 0}, {0, -1, 0});
  ASSERT_TRUE(measured.ok());
  EXPECT_NEAR(measured.value().length_m, 2, 1e-12);
  EXPECT_NEAR(measured.value().error_m, std::sqrt(2.0) * 3 / 300, 1e-6);  // two ends, 3 px each, 300 px a metre
}

TEST(Measure, AnUncertainFocalLengthAndTapeScaleTheLength) {
  Calibrated camera = level_camera();
  camera.click_error_px = 1e-9;
  camera.covariance[6][6] = 0.05 * 0.05;
  camera.size_error_share = 0.02;
  const auto measured = length_on_plane(camera, {2000, 1500}, {2600, 1500}, {0, 0, 0}, {0, -1, 0});
  ASSERT_TRUE(measured.ok());
  EXPECT_NEAR(measured.value().error_m, 2 * std::hypot(0.05, 0.02), 1e-4);
}

// A foot at 1500 + 3000 * 1.5 / 15 = 1800 px lies 15 m off; a top at 1500 - 3000 * 4.5 / 15 = 600 px is 6 m up.
TEST(Measure, AHeightOverAFootFollowsFromTheFootsDistance) {
  const auto measured = height_at_foot(level_camera(), {2100, 1800}, {2100, 600}, {0, 0, 0}, {0, 0, 1});
  ASSERT_TRUE(measured.ok());
  EXPECT_NEAR(measured.value().from.y_m, 5, 1e-9);
  EXPECT_NEAR(measured.value().length_m, 6, 0.01);
  // 3 px of 300 move the foot by 1 % of 15 m, which lifts the top by 0.3 of that; 3 px of 200 a metre at the top.
  EXPECT_NEAR(measured.value().error_m, std::hypot(0.3 * 0.15, 3.0 / 200), 1e-3);
}

TEST(Measure, AboveTheHorizonThereIsNoGround) {
  EXPECT_FALSE(length_on_plane(level_camera(), {2000, 1800}, {2000, 1400}, {0, 0, 0}, {0, 0, 1}).ok());
  EXPECT_FALSE(height_at_foot(level_camera(), {2000, 1500}, {2000, 600}, {0, 0, 0}, {0, 0, 1}).ok());
}

TEST(Planes, HangOnTheWallAndFaceTheCamera) {
  const KnownRectangle wall{{}, {0, 0, 0}, {4, 0, 0}, 3};
  Camera camera;
  camera.position = {-3, -8, 1.6};
  const HungPlanes hung = hung_planes(wall, camera);
  EXPECT_NEAR(length(hung.wall.normal - geometry::Vec3{0, -1, 0}), 0, 1e-12);
  EXPECT_TRUE(hung.left_is_outer);  // the camera stands left of the wall: it sees the house's left side
  EXPECT_FALSE(hung.right_is_outer);
  EXPECT_NEAR(length(hung.left_wall.normal - geometry::Vec3{-1, 0, 0}), 0, 1e-12);
  EXPECT_NEAR(hung.roof.normal.y, -0.5, 1e-12);  // 30 degrees
  EXPECT_EQ(hung.roof.on_plane.z_m, 3);
  EXPECT_EQ(hung.ground.normal, (geometry::Vec3{0, 0, 1}));
}

// tests/reference/photos: a small house, marked by eye on an enlargement. The corner of both walls is where the light
// of the gable ends and the shade of the long wall begins (729 px), not the tip of the roof left of it. Weeds hide the
// feet but for the gable's far one: they were set where the eaves' edge, which is clean, and the horizon (396 px) put
// them, since a wall reaches above and below the horizon in one ratio all along. The sizes are invented for the
// exercise.
CalibrationProblem plains_house() {
  CalibrationProblem problem;
  problem.width_px = 1024;
  problem.height_px = 788;
  problem.click_error_px = 4;
  problem.wall = KnownRectangle{
      {PixelPoint{729, 467.5}, {982.5, 456.5}, {982.5, 309.7}, {729, 294.7}}, {0, 0, 0}, {6.1, 0, 0}, 2.6};
  return problem;
}

TEST(PlainsHouse, TheLongWallFixesACameraThatSeesTheHorizonWhereItIs) {
  const auto found = calibrate(plains_house());
  ASSERT_TRUE(found.ok());
  EXPECT_LT(found.value().residual_px, 1);
  // The horizon of the plain lies at 398 px on the picture: there a level way meets the picture at any bearing.
  const Camera& camera = found.value().camera;
  const auto far = pixel_from_site(camera, camera.position + geometry::Vec3{1e5, 1e5, 0});
  ASSERT_TRUE(far);
  EXPECT_NEAR(far->y_px, 398, 8);
}

constexpr PixelPoint gable_foot{544, 460};
constexpr PixelPoint gable_eaves{544, 306.5};

// The long wall with both its sizes: the picture contradicts the suggested height, and says so by its errors.
TEST(PlainsHouse, TheGableIsWithinItsStatedErrorWhereTheHeightIsTakenAsGiven) {
  const auto found = calibrate(plains_house());
  ASSERT_TRUE(found.ok());
  const auto gable = length_on_plane(found.value(), {729, 467.5}, gable_foot, {0, 0, 0}, {-1, 0, 0});
  ASSERT_TRUE(gable.ok());
  EXPECT_LT(std::abs(gable.value().length_m - 3.7), 2.58 * gable.value().error_m);
  EXPECT_FALSE(found.value().wall_height_m);
}

// The long wall's 6.1 m alone, its height left to the picture: the gable's 3.7 m within 8 %.
TEST(PlainsHouse, TheGableIsAsWideAsKnownWithinEightPercentFromTheLongWallsWidth) {
  CalibrationProblem problem = plains_house();
  problem.wall->height_m = 0;
  problem.adjoining = AdjoiningWall{gable_foot, gable_eaves};
  const auto found = calibrate(problem);
  ASSERT_TRUE(found.ok());
  ASSERT_TRUE(found.value().adjoining_width_m && found.value().wall_height_m);
  EXPECT_NEAR(*found.value().adjoining_width_m, 3.7, 0.08 * 3.7);
  EXPECT_NEAR(*found.value().wall_height_m, 2.4, 0.15);
  EXPECT_LT(found.value().residual_px, 1);
  const auto eaves = length_on_plane(found.value(), gable_foot, gable_eaves, {0, 0, 0}, {-1, 0, 0});
  ASSERT_TRUE(eaves.ok());
  EXPECT_NEAR(eaves.value().length_m, *found.value().wall_height_m, 0.1);
}

}  // namespace
}  // namespace duskwire::light
