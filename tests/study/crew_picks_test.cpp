// SPDX-License-Identifier: Apache-2.0
#include "study/crew_picks.hpp"

#include <gtest/gtest.h>

#include "study/check.hpp"
#include "study/wired_jobs.hpp"

namespace duskwire::study {
namespace {

std::vector<CrewBag> bags_of(const job::Job& job) {
  const Report report = check(job, {}, job.catalogue, {.cures = false});
  return crew_bags(job, job.catalogue, estimate::materials(job, job.catalogue), crew_runs(job, job.catalogue, report));
}

double quantity(const CrewBag& bag, const std::string& item) {
  for (const CrewPick& pick : bag.picks) {
    if (pick.item == item) return pick.quantity;
  }
  return 0;
}

TEST(CrewPicks, ABagPerZoneHoldsItsLampsItsJointsAndItsCable) {
  job::Job job = tests::two_splice_site();
  job.practice.waste_pct = 10;
  for (job::Luminaire& luminaire : job.luminaires) {
    luminaire.zone = luminaire.item == "uplight-6va" ? "front" : "back";
  }
  const auto bags = bags_of(job);
  ASSERT_EQ(bags.size(), 4u);
  EXPECT_EQ(bags[0].name, "front");
  EXPECT_EQ(quantity(bags[0], "uplight-6va"), 4);
  EXPECT_EQ(quantity(bags[0], "gel"), 2) << "S1 stands in front";
  EXPECT_NEAR(quantity(bags[0], "12awg-2"), 30, 1e-9) << "the run up to S1";
  EXPECT_NEAR(quantity(bags[0], "14awg-2"), 32, 1e-9);
  EXPECT_EQ(bags[1].name, "back");
  EXPECT_NEAR(quantity(bags[1], "12awg-2"), 15, 1e-9);
  EXPECT_EQ(quantity(bags[1], "uplight-6va"), 0);
  EXPECT_EQ(bags[2].kind, BagKind::transformer);
  EXPECT_EQ(quantity(bags[2], "ideal"), 1);
  EXPECT_EQ(bags[3].kind, BagKind::van);
  EXPECT_NEAR(quantity(bags[3], "12awg-2"), 5, 1e-9) << "45 m and 10 % waste, rounded up to 50 m, less 45 m";
}

TEST(CrewPicks, SayForWhichLampEachPieceIs) {
  const auto bags = bags_of(tests::two_splice_site());
  ASSERT_FALSE(bags.empty());
  EXPECT_EQ(bags[0].picks[1].item, "path-3va");
  EXPECT_EQ(bags[0].picks[1].users, (std::vector<std::string>{"F5", "F6", "F7"}));
}

}  // namespace
}  // namespace duskwire::study
