// SPDX-License-Identifier: Apache-2.0
#include "estimate/ground_stretches.hpp"

#include <gtest/gtest.h>

namespace duskwire::estimate {
namespace {

job::Area area(job::GroundKind kind, geometry::Polygon outline) {
  job::Area made;
  made.kind = kind;
  made.outline = std::move(outline);
  return made;
}

// Lawn from x = 0 to 20, a drive across it from x = 8 to 11.
job::Plan lawn_with_drive() {
  job::Plan plan;
  plan.areas = {area(job::GroundKind::lawn, {{0, -5}, {20, -5}, {20, 5}, {0, 5}}),
                area(job::GroundKind::drive, {{8, -5}, {11, -5}, {11, 5}, {8, 5}})};
  return plan;
}

job::Cable along_x(double from_m, double to_m) {
  job::Cable cable;
  cable.path = {{from_m, 1}, {to_m, 1}};
  return cable;
}

TEST(GroundStretches, FollowThePathThroughTheAreas) {
  const auto stretches = ground_stretches(lawn_with_drive(), along_x(2, 16), 14);
  ASSERT_EQ(stretches.size(), 3u);
  EXPECT_EQ(stretches[0].ground, job::GroundKind::lawn);
  EXPECT_NEAR(stretches[0].length_m, 6, 1e-12);
  EXPECT_EQ(stretches[1].ground, job::GroundKind::drive);
  EXPECT_NEAR(stretches[1].length_m, 3, 1e-12);
  EXPECT_NEAR(stretches[2].length_m, 5, 1e-12);
}

TEST(GroundStretches, AreaListedLastLiesOnTop) {
  job::Plan plan = lawn_with_drive();
  std::swap(plan.areas[0], plan.areas[1]);
  const auto stretches = ground_stretches(plan, along_x(2, 16), 14);
  ASSERT_EQ(stretches.size(), 1u);
  EXPECT_EQ(stretches[0].ground, job::GroundKind::lawn);
}

TEST(GroundStretches, ScaleToTheGivenLength) {
  const auto stretches = ground_stretches(lawn_with_drive(), along_x(2, 16), 28);
  ASSERT_EQ(stretches.size(), 3u);
  EXPECT_NEAR(stretches[1].length_m, 6, 1e-12);
}

TEST(GroundStretches, OutsideThePlanTheCablesOwnGroundHolds) {
  job::Cable cable = along_x(18, 26);
  cable.ground = job::GroundKind::gravel;
  const auto stretches = ground_stretches(lawn_with_drive(), cable, 8);
  ASSERT_EQ(stretches.size(), 2u);
  EXPECT_EQ(stretches[1].ground, job::GroundKind::gravel);
  EXPECT_NEAR(stretches[1].length_m, 6, 1e-12);
}

TEST(GroundStretches, WithoutAPathTheWholeRouteIsTheCablesOwnGround) {
  job::Cable cable;
  const auto unknown = ground_stretches({}, cable, 9);
  ASSERT_EQ(unknown.size(), 1u);
  EXPECT_FALSE(unknown[0].ground);
  EXPECT_DOUBLE_EQ(unknown[0].length_m, 9);
  EXPECT_TRUE(ground_stretches({}, cable, 0).empty());
}

TEST(GroundStretches, BentPathAcrossACornerAddsUp) {
  job::Cable cable;
  cable.path = {{-3, 0}, {9, 0}, {9, 9}, {13, 9}};
  const auto stretches = ground_stretches(lawn_with_drive(), cable, 25);
  double sum_m = 0;
  for (const GroundStretch& stretch : stretches) sum_m += stretch.length_m;
  EXPECT_NEAR(sum_m, 25, 1e-9);
  ASSERT_EQ(stretches.size(), 4u);
  EXPECT_NEAR(stretches[2].length_m, 1 + 5, 1e-9);  // drive: from x = 8, then up to y = 5
}

TEST(GroundStretches, PathAlongAnEdgeIsCountedOnce) {
  job::Cable cable;
  cable.path = {{8, -5}, {8, 5}};
  const auto stretches = ground_stretches(lawn_with_drive(), cable, 10);
  ASSERT_EQ(stretches.size(), 1u);
  EXPECT_NEAR(stretches[0].length_m, 10, 1e-12);
}

}  // namespace
}  // namespace duskwire::estimate
