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

std::vector<job::GroundStretch> stretches_on(const job::Plan& plan, const job::Cable& cable, double route_m) {
  return ground_stretches(job::PlanGround(plan), cable, route_m);
}

TEST(GroundStretches, ScaleToTheGivenLength) {
  const auto stretches = stretches_on(lawn_with_drive(), along_x(2, 16), 28);
  ASSERT_EQ(stretches.size(), 3u);
  EXPECT_NEAR(stretches[1].length_m, 6, 1e-12);
}

TEST(GroundStretches, OutsideThePlanTheCablesOwnGroundHolds) {
  job::Cable cable = along_x(18, 26);
  cable.ground = job::GroundKind::gravel;
  const auto stretches = stretches_on(lawn_with_drive(), cable, 8);
  ASSERT_EQ(stretches.size(), 2u);
  EXPECT_EQ(stretches[1].kind, job::GroundKind::gravel);
  EXPECT_NEAR(stretches[1].length_m, 6, 1e-12);
}

TEST(GroundStretches, WithoutAPathTheWholeRouteIsTheCablesOwnGround) {
  job::Cable cable;
  const auto unknown = stretches_on({}, cable, 9);
  ASSERT_EQ(unknown.size(), 1u);
  EXPECT_FALSE(unknown[0].kind);
  EXPECT_DOUBLE_EQ(unknown[0].length_m, 9);
  EXPECT_TRUE(stretches_on({}, cable, 0).empty());
}

}  // namespace
}  // namespace duskwire::estimate
