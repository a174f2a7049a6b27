// SPDX-License-Identifier: Apache-2.0
#include "study/crew_trench.hpp"

#include <gtest/gtest.h>

#include "study/rule_fixture.hpp"

namespace duskwire::study {
namespace {

job::Cable cable(const char* id, geometry::Polyline path, double depth_m) {
  job::Cable made;
  made.id = id;
  made.path = std::move(path);
  made.depth_m = depth_m;
  return made;
}

// A lawn of 20 m with a bed from x = 12 on.
job::Job lawn_and_bed() {
  job::Job job;
  job.plan.areas = {rule_testing::square("lawn", job::GroundKind::lawn, 0, 0, 20),
                    rule_testing::square("bed", job::GroundKind::bed, 12, 0, 8)};
  return job;
}

TEST(CrewTrench, SumsMetresByGroundAndDepth) {
  job::Job job = lawn_and_bed();
  job.cables = {cable("c1", {{2, 4}, {16, 4}}, 0.15), cable("c2", {{2, 6}, {7, 6}}, 0.3)};
  const CrewGround ground = crew_ground(job);
  ASSERT_EQ(ground.trenches.size(), 3u);
  EXPECT_EQ(ground.trenches[0].ground, job::GroundKind::bed);
  EXPECT_NEAR(ground.trenches[0].dug_m, 4, 1e-6);
  EXPECT_EQ(ground.trenches[1].ground, job::GroundKind::lawn);
  EXPECT_EQ(ground.trenches[1].cover_m, 0.15);
  EXPECT_NEAR(ground.trenches[1].dug_m, 10, 1e-6);
  EXPECT_EQ(ground.trenches[2].cover_m, 0.3);
  EXPECT_NEAR(ground.trenches[2].dug_m, 5, 1e-6);
  EXPECT_EQ(ground.trenches[2].cables, std::vector<std::string>{"c2"});
  EXPECT_NEAR(ground.dug_m, 19, 1e-6);
}

TEST(CrewTrench, ASharedTrenchGoesDownToTheDeeperCable) {
  job::Job job = lawn_and_bed();
  job.cables = {cable("c1", {{2, 4}, {10, 4}}, 0.15), cable("c2", {{2, 4}, {6, 4}}, 0.3)};
  const CrewGround ground = crew_ground(job);
  ASSERT_EQ(ground.trenches.size(), 2u);
  EXPECT_EQ(ground.trenches[1].dug_m, 0);
  EXPECT_NEAR(ground.trenches[1].shared_m, 4, 1e-6);
  EXPECT_EQ(ground.trenches[1].deeper_in_shared, std::vector<std::string>{"c2"});
  EXPECT_TRUE(ground.trenches[0].deeper_in_shared.empty());
}

TEST(CrewTrench, SleevesSayWhatGoesThroughThem) {
  job::Job job = lawn_and_bed();
  job::Sleeve sleeve;
  sleeve.id = "under-walk";
  sleeve.path = {{5, 4}, {8, 4}};
  sleeve.depth_m = 0.45;
  sleeve.laid = true;
  job.plan.sleeves = {sleeve};
  job.cables = {cable("c1", {{2, 4}, {16, 4}}, 0.15), cable("c2", {{2, 9}, {7, 9}}, 0.15)};
  const CrewGround ground = crew_ground(job);
  ASSERT_EQ(ground.sleeves.size(), 1u);
  EXPECT_EQ(ground.sleeves[0].length_m, 3);
  EXPECT_EQ(ground.sleeves[0].cables, std::vector<std::string>{"c1"});
  EXPECT_NEAR(ground.dug_m, 14 - 3 + 5, 0.11) << "through a sleeve that is there nothing is dug";
  job.plan.sleeves[0].laid.reset();
  EXPECT_NEAR(crew_ground(job).dug_m, 14 + 5, 1e-6) << "one that is not known to be there is dug for";
}

}  // namespace
}  // namespace duskwire::study
