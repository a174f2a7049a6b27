// SPDX-License-Identifier: Apache-2.0
#include "job/plan_ground.hpp"

#include <gtest/gtest.h>

#include <algorithm>

namespace duskwire::job {
namespace {

Area area(GroundKind kind, geometry::Polygon outline) {
  Area made;
  made.kind = kind;
  made.outline = std::move(outline);
  return made;
}

// Lawn from x = 0 to 20, a drive across it from x = 8 to 11.
Plan lawn_with_drive() {
  Plan plan;
  plan.areas = {area(GroundKind::lawn, {{0, -5}, {20, -5}, {20, 5}, {0, 5}}),
                area(GroundKind::drive, {{8, -5}, {11, -5}, {11, 5}, {8, 5}})};
  return plan;
}

TEST(PlanGround, FollowsARouteThroughTheAreas) {
  const Plan plan = lawn_with_drive();
  const auto stretches = PlanGround(plan).along({{2, 1}, {22, 1}});
  ASSERT_EQ(stretches.size(), 4u);
  EXPECT_EQ(stretches[0].kind, GroundKind::lawn);
  EXPECT_NEAR(stretches[0].length_m, 6, 1e-12);
  EXPECT_EQ(stretches[1].kind, GroundKind::drive);
  EXPECT_NEAR(stretches[1].length_m, 3, 1e-12);
  EXPECT_NEAR(stretches[2].length_m, 9, 1e-12);
  EXPECT_FALSE(stretches[3].kind);
  EXPECT_NEAR(stretches[3].length_m, 2, 1e-12);
}

TEST(PlanGround, SmallerAreaCountsWhateverTheOrder) {
  Plan plan = lawn_with_drive();
  std::swap(plan.areas[0], plan.areas[1]);
  EXPECT_EQ(PlanGround(plan).at({9, 0}), GroundKind::drive);
  EXPECT_EQ(PlanGround(plan).at({3, 0}), GroundKind::lawn);
}

TEST(PlanGround, RootZoneCountsOnlyWhereNothingElseLies) {
  Plan plan = lawn_with_drive();
  plan.areas.push_back(area(GroundKind::root_zone, {{19, 0}, {23, 0}, {23, 2}, {19, 2}}));
  EXPECT_EQ(PlanGround(plan).at({19.5, 1}), GroundKind::lawn);
  EXPECT_EQ(PlanGround(plan).at({21, 1}), GroundKind::root_zone);
}

TEST(PlanGround, BentRouteAcrossACornerAddsUp) {
  const Plan plan = lawn_with_drive();
  const auto stretches = PlanGround(plan).along({{-3, 0}, {9, 0}, {9, 9}, {13, 9}});
  double sum_m = 0;
  for (const GroundStretch& stretch : stretches) sum_m += stretch.length_m;
  EXPECT_NEAR(sum_m, 25, 1e-9);
  ASSERT_EQ(stretches.size(), 4u);
  EXPECT_NEAR(stretches[2].length_m, 1 + 5, 1e-9);  // drive: from x = 8, then up to y = 5
}

TEST(PlanGround, RouteAlongAnEdgeIsCountedOnce) {
  const Plan plan = lawn_with_drive();
  const auto stretches = PlanGround(plan).along({{8, -5}, {8, 5}});
  ASSERT_EQ(stretches.size(), 1u);
  EXPECT_NEAR(stretches[0].length_m, 10, 1e-12);
}

TEST(PlanGround, WithoutARouteOrAPlanThereIsNothingToSay) {
  const Plan plan = lawn_with_drive();
  const Plan bare;
  EXPECT_TRUE(PlanGround(plan).along({}).empty());
  EXPECT_TRUE(PlanGround(plan).along({{1, 1}}).empty());
  EXPECT_FALSE(PlanGround(bare).at({0, 0}));
}

}  // namespace
}  // namespace duskwire::job
