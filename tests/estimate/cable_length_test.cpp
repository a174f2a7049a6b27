// SPDX-License-Identifier: Apache-2.0
#include "estimate/cable_length.hpp"

#include <gtest/gtest.h>

#include <limits>

#include "estimate/jobs.hpp"

namespace duskwire::estimate {
namespace {

TEST(RouteLength, IsTheGivenLengthBeforeThePath) {
  job::Cable cable;
  cable.path = {{0, 0}, {3, 4}, {3, 10}};
  EXPECT_DOUBLE_EQ(*route_length_m(cable), 11);
  cable.length_m = 12.5;
  EXPECT_DOUBLE_EQ(*route_length_m(cable), 12.5);
}

TEST(RouteLength, IsAbsentWhereThereIsNeitherOrNotALength) {
  job::Cable cable;
  EXPECT_FALSE(route_length_m(cable));
  cable.path = {{1, 1}};
  EXPECT_FALSE(route_length_m(cable));
  cable.length_m = -1;
  EXPECT_FALSE(route_length_m(cable));
  cable.length_m = std::numeric_limits<double>::quiet_NaN();
  EXPECT_FALSE(route_length_m(cable));
  cable.length_m = 0;
  EXPECT_DOUBLE_EQ(*route_length_m(cable), 0);
}

TEST(CableLength, TakesSlackByTheKindOfEachEnd) {
  const job::Job job = tests::two_hub_garden();
  const EndIndex ends(job);
  const auto run = cable_length(job, ends, job.cables[0]);
  ASSERT_TRUE(run);
  EXPECT_DOUBLE_EQ(run->slack_from_m, 1.0);
  EXPECT_DOUBLE_EQ(run->slack_to_m, 0.3);
  EXPECT_DOUBLE_EQ(run->cut_m(), 31.3);
  const auto lead = cable_length(job, ends, job.cables[2]);
  ASSERT_TRUE(lead);
  EXPECT_DOUBLE_EQ(lead->slack_from_m, 0.3);
  EXPECT_DOUBLE_EQ(lead->slack_to_m, 0.6);
}

TEST(CableLength, CablesOwnSlackGoesFirstThenTheLuminaires) {
  job::Job job = tests::two_hub_garden();
  job.luminaires[0].slack_m = 0.9;
  const EndIndex ends(job);
  EXPECT_DOUBLE_EQ(slack_at_to_m(job, ends, job.cables[2]), 0.9);
  job.cables[2].slack_to_m = 0;
  EXPECT_DOUBLE_EQ(slack_at_to_m(job, ends, job.cables[2]), 0);
}

TEST(EndIndex, KnowsOutputsJointsAndLuminaires) {
  const job::Job job = tests::two_hub_garden();
  const EndIndex ends(job);
  EXPECT_EQ(ends.find("T-1").kind, EndKind::output);
  EXPECT_EQ(ends.find("S2").kind, EndKind::joint);
  EXPECT_EQ(ends.find("S2").index, 1u);
  EXPECT_EQ(ends.find("F8").kind, EndKind::luminaire);
  EXPECT_EQ(ends.find("T").kind, EndKind::unknown);
}

}  // namespace
}  // namespace duskwire::estimate
