// SPDX-License-Identifier: Apache-2.0
#include "study/tape_offsets.hpp"

#include <gtest/gtest.h>

namespace duskwire::study {
namespace {

job::FixedPoint fixed(const char* id, double x_m, double y_m) {
  job::FixedPoint point;
  point.id = id;
  point.position = {x_m, y_m};
  return point;
}

TEST(TapeOffsets, AreTheTwoLengthsOfATriangle) {
  job::Plan plan;
  plan.fixed_points = {fixed("west", 0, 0), fixed("east", 8, 0)};
  const auto offsets = plan_offsets(plan, {3, -4});  // 3-4-5 from the west point, sqrt(25 + 16) from the east one
  ASSERT_TRUE(offsets);
  EXPECT_EQ(offsets->first.point, "west");
  EXPECT_NEAR(offsets->first.distance_m, 5, 1e-12);
  EXPECT_NEAR(offsets->second.distance_m, 6.40312, 1e-5);
  EXPECT_EQ(offsets->side, TapeSide::right);
  EXPECT_FALSE(offsets->measured);
  EXPECT_EQ(plan_offsets(plan, {3, 4})->side, TapeSide::left);
}

TEST(TapeOffsets, TakeThePairThatFixesThePlaceBest) {
  job::Plan plan;
  plan.fixed_points = {fixed("far", -30, 0), fixed("in-line", -10, 0), fixed("square", 0, 4), fixed("near", -4, 0)};
  const auto offsets = plan_offsets(plan, {0, 0});
  ASSERT_TRUE(offsets);
  EXPECT_EQ(offsets->first.point, "square");
  EXPECT_EQ(offsets->second.point, "near");
}

TEST(TapeOffsets, AreNothingWhereTheTapesRunInLine) {
  job::Plan plan;
  plan.fixed_points = {fixed("a", -10, 0), fixed("b", 10, 0.1)};
  EXPECT_FALSE(plan_offsets(plan, {0, 0}));
  plan.fixed_points.pop_back();
  EXPECT_FALSE(plan_offsets(plan, {0, 5})) << "one point is not enough";
}

TEST(TapeOffsets, OfARecordGoBeforeThoseOfThePlan) {
  job::Plan plan;
  plan.fixed_points = {fixed("west", 0, 0), fixed("east", 8, 0)};
  job::Joint joint;
  joint.position = {3, 4};
  job::AsBuilt record;
  record.fixed_point_1 = "east";
  record.fixed_point_2 = "west";
  record.offset_1_m = 6.5;
  joint.as_built = record;
  EXPECT_FALSE(joint_offsets(plan, joint)->measured) << "one length is no record";
  joint.as_built->offset_2_m = 5.1;
  const auto offsets = joint_offsets(plan, joint);
  EXPECT_TRUE(offsets->measured);
  EXPECT_EQ(offsets->first.point, "east");
  EXPECT_EQ(offsets->first.distance_m, 6.5);
  EXPECT_EQ(offsets->side, TapeSide::right);
}

}  // namespace
}  // namespace duskwire::study
