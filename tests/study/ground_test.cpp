// SPDX-License-Identifier: Apache-2.0
#include "study/ground.hpp"

#include <gtest/gtest.h>

#include "study/rule_fixture.hpp"

namespace duskwire::study {
namespace {

using job::GroundKind;
using rule_testing::square;

job::Plan plan_of(std::vector<job::Area> areas) {
  job::Plan plan;
  plan.areas = std::move(areas);
  return plan;
}

TEST(Ground, RouteIsDividedByWhatItCrosses) {
  const job::Plan plan =
      plan_of({square("lawn", GroundKind::lawn, 0, 0, 10), square("drive", GroundKind::drive, 4, 0, 3)});
  const GroundAlong along = ground_along(job::PlanGround(plan), {{1, 1}, {12, 1}});
  EXPECT_NEAR(along.length_m.at(GroundKind::lawn), 3 + 3, 1e-12);
  EXPECT_NEAR(along.length_m.at(GroundKind::drive), 3, 1e-12);
  EXPECT_NEAR(along.unknown_m, 2, 1e-12);
}

TEST(Ground, EmptyRouteLiesUnderNothing) {
  const job::Plan plan = plan_of({square("lawn", GroundKind::lawn, 0, 0, 10)});
  const GroundAlong along = ground_along(job::PlanGround(plan), {});
  EXPECT_TRUE(along.length_m.empty());
  EXPECT_EQ(along.unknown_m, 0);
}

TEST(Ground, KeysAreThoseOfTheDocument) {
  EXPECT_EQ(ground_key(GroundKind::bed), "bed");
  EXPECT_EQ(ground_key(GroundKind::root_zone), "root_zone");
  EXPECT_EQ(ground_key(GroundKind::forbidden), "forbidden");
}

}  // namespace
}  // namespace duskwire::study
