// SPDX-License-Identifier: Apache-2.0
#include "estimate/variant.hpp"

#include <gtest/gtest.h>

#include <set>

#include "estimate/cable_length.hpp"
#include "estimate/jobs.hpp"

namespace duskwire::estimate {
namespace {

template <class List>
std::set<std::string> ids(const List& list) {
  std::set<std::string> all;
  for (const auto& each : list) all.insert(each.id);
  return all;
}

using Ids = std::set<std::string>;

TEST(Variant, AHubThatFeedsNothingMoreGoesWithItsTrunk) {
  const job::Job job = with_luminaires(tests::two_hub_garden(), {"F1", "F3"});
  EXPECT_EQ(ids(job.luminaires), (Ids{"F1", "F3"}));
  EXPECT_EQ(ids(job.joints), (Ids{"S1"}));
  EXPECT_EQ(ids(job.cables), (Ids{"run-1", "lead-F1", "lead-F3"}));
  EXPECT_EQ(ids(job.transformers), (Ids{"T"}));
}

TEST(Variant, AHubOnTheWayStays) {
  const job::Job job = with_luminaires(tests::two_hub_garden(), {"F8"});
  EXPECT_EQ(ids(job.joints), (Ids{"S1", "S2"}));
  EXPECT_EQ(ids(job.cables), (Ids{"run-1", "run-2", "lead-F8"}));
}

TEST(Variant, WithoutLightsNothingIsLeft) {
  const job::Job job = with_luminaires(tests::two_hub_garden(), {});
  EXPECT_TRUE(job.luminaires.empty());
  EXPECT_TRUE(job.joints.empty());
  EXPECT_TRUE(job.cables.empty());
  EXPECT_TRUE(job.transformers.empty());
}

TEST(Variant, WithAllItsLightsAJobStaysAsItIs) {
  const job::Job job = tests::two_hub_garden();
  EXPECT_EQ(with_luminaires(job, {"F1", "F2", "F3", "F4", "F5", "F6", "F7", "F8"}), job);
}

TEST(Variant, WhereCablesPassOnAtALightAJointTakesItsPlace) {
  job::Job job = tests::two_hub_garden();
  job.cables.back().from = "F7";  // F8 now hangs on F7
  const job::Job left = with_luminaires(job, {"F8"});
  EXPECT_EQ(ids(left.joints), (Ids{"S1", "S2", "F7"}));
  EXPECT_EQ(ids(left.cables), (Ids{"run-1", "run-2", "lead-F7", "lead-F8"}));
}

TEST(Variant, ALeadThatGoesLeavesTheJointOfTheOthers) {
  job::Job job = tests::two_hub_garden();
  job::Luminaire lead;
  lead.id = "F9";
  lead.joint = "S2";
  job.luminaires.push_back(lead);
  EXPECT_EQ(ids(with_luminaires(job, {"F9"}).cables), (Ids{"run-1", "run-2"}));
  EXPECT_EQ(ids(with_luminaires(job, {"F1"}).cables), (Ids{"run-1", "lead-F1"}));
}

// Both ways of a loop feed its lights: neither is taken while one of them is left.
TEST(Variant, ALoopStaysWhole) {
  job::Job job = tests::two_hub_garden();
  job::Cable back = job.cables[0];
  back.id = "back";
  back.to = "S2";
  job.cables.push_back(back);
  EXPECT_EQ(ids(with_luminaires(job, {"F1"}).cables), (Ids{"run-1", "run-2", "back", "lead-F1"}));
}

TEST(Variant, ALoopWithoutALightGoesWhole) {
  job::Job job = tests::two_hub_garden();
  job::Cable back = job.cables[0];
  back.id = "back";
  back.to = "S2";
  job.cables.push_back(back);
  const job::Job dark = with_luminaires(job, {});
  EXPECT_TRUE(dark.cables.empty());
  EXPECT_TRUE(dark.joints.empty());
  EXPECT_TRUE(dark.transformers.empty());
}

TEST(Variant, NoCableEndsAtNothing) {
  for (std::uint32_t seed = 0; seed < 300; ++seed) {
    const job::Job whole = tests::random_job(seed);
    std::unordered_set<std::string> kept;
    for (std::size_t i = 0; i < whole.luminaires.size(); i += 3) kept.insert(whole.luminaires[i].id);
    const job::Job job = with_luminaires(whole, kept);
    EXPECT_EQ(job.luminaires.size(), kept.size());
    const EndIndex ends(job);
    for (const job::Cable& cable : job.cables) {
      EXPECT_NE(ends.find(cable.from).kind, EndKind::unknown) << seed << ' ' << cable.id;
      EXPECT_NE(ends.find(cable.to).kind, EndKind::unknown) << seed << ' ' << cable.id;
    }
  }
}

}  // namespace
}  // namespace duskwire::estimate
