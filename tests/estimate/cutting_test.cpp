// SPDX-License-Identifier: Apache-2.0
#include "estimate/cutting.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <map>

#include "estimate/jobs.hpp"

namespace duskwire::estimate {
namespace {

TEST(RoundedUp, DecimalSumsDoNotCostAnotherStep) {
  EXPECT_DOUBLE_EQ(rounded_up_m(0.1 + 0.2, 0.1), 0.3);
  EXPECT_DOUBLE_EQ(rounded_up_m(46.9 * 1.1, 1), 52);
  EXPECT_DOUBLE_EQ(rounded_up_m(52, 1), 52);
  EXPECT_DOUBLE_EQ(rounded_up_m(52.001, 1), 53);
  EXPECT_DOUBLE_EQ(rounded_up_m(0, 5), 0);
}

TEST(RoundedUp, WithoutAStepTheLengthStays) {
  EXPECT_DOUBLE_EQ(rounded_up_m(7.3, 0), 7.3);
  EXPECT_DOUBLE_EQ(rounded_up_m(7.3, std::numeric_limits<double>::quiet_NaN()), 7.3);
}

TEST(CutList, IsLongestFirstWithinItsTypeAndRunsAlongTheReel) {
  const Materials list = materials(tests::two_hub_garden(), {});
  ASSERT_EQ(list.cuts.size(), 10u);
  const std::vector<std::string> tags{"run-1",   "run-2",   "lead-F8", "lead-F1", "lead-F2",
                                      "lead-F3", "lead-F4", "lead-F5", "lead-F6", "lead-F7"};
  std::map<std::string, double> reel_m;
  std::map<std::string, double> last_m;
  for (const Cut& cut : list.cuts) {
    EXPECT_DOUBLE_EQ(cut.cut_m, cut.route_m + cut.slack_from_m + cut.slack_to_m);
    reel_m[cut.item] += cut.cut_m;
    EXPECT_DOUBLE_EQ(cut.running_m, reel_m[cut.item]) << cut.tag;
    if (last_m.count(cut.item) > 0) {
      EXPECT_LE(cut.cut_m, last_m[cut.item]) << cut.tag;
    }
    last_m[cut.item] = cut.cut_m;
  }
  for (std::size_t i = 0; i < tags.size(); ++i) EXPECT_EQ(list.cuts[i].tag, tags[i]);
}

TEST(CutList, NamesItsEndsForTheCrew) {
  job::Job job = tests::two_hub_garden();
  job.transformers[0].name = "Garage";
  job.joints[0].name = "Hub by the oak";
  const Materials list = materials(job, {});
  EXPECT_EQ(list.cuts[0].from_name, "Garage, output T-1");
  EXPECT_EQ(list.cuts[0].to_name, "Hub by the oak");
  EXPECT_EQ(list.cuts[1].to_name, "S2");
  EXPECT_DOUBLE_EQ(list.cuts[0].slack_from_m, 1.0);
  EXPECT_DOUBLE_EQ(list.cuts[0].slack_to_m, 0.3);
}

TEST(CutList, TypesComeInTheOrderOfTheirIds) {
  const Materials list = materials(tests::two_hub_garden(), {});
  EXPECT_EQ(list.cuts.front().item, "12awg-2");
  EXPECT_EQ(list.cuts.back().item, "14awg-2");
}

TEST(CutList, CableWithoutLengthIsPointedAtAndLeftOut) {
  job::Job job = tests::two_hub_garden();
  job.cables[0].length_m.reset();
  job.cables[1].length_m = -3;
  const Materials list = materials(job, {});
  ASSERT_EQ(list.problems.size(), 2u);
  EXPECT_EQ(list.problems[0].pointer, "/cables/0/length_m");
  EXPECT_EQ(list.problems[1].pointer, "/cables/1/length_m");
  EXPECT_EQ(list.cuts.size(), 8u);
}

TEST(CutList, CableToNowhereIsCutWithoutSlackThereAndPointedAt) {
  job::Job job = tests::two_hub_garden();
  job.cables[2].to = "nowhere";
  const Materials list = materials(job, {});
  ASSERT_TRUE(has_errors(list.problems));
  EXPECT_EQ(list.problems[0].pointer, "/cables/2/to");
  const auto cut = std::find_if(list.cuts.begin(), list.cuts.end(), [](const Cut& c) { return c.tag == "lead-F1"; });
  ASSERT_NE(cut, list.cuts.end());
  EXPECT_DOUBLE_EQ(cut->slack_to_m, 0);
}

TEST(CutList, SoldByTheHundredFeetRoundsUpToThat) {
  job::Job job = tests::two_hub_garden();
  for (job::CableItem& item : job.catalogue.cables) item.sold_step_m = 30.48;
  const Materials list = materials(job, {});
  EXPECT_DOUBLE_EQ(list.cables[0].bought_m, 2 * 30.48);  // 51.59 m
  EXPECT_DOUBLE_EQ(list.cables[1].bought_m, 3 * 30.48);  // 70.62 m
}

TEST(CutList, CoilsHoldTheirCutsWithWaste) {
  MaterialsOptions options;
  options.coils = {{"14awg-2", {25, 50}}};
  const Materials list = materials(tests::two_hub_garden(), {}, options);
  std::map<std::uint32_t, double> used_m;
  for (const Cut& cut : list.cuts) {
    if (cut.item == "14awg-2") used_m[cut.reel] += cut.cut_m;
  }
  double bought_m = 0;
  for (const Reel& reel : list.reels) {
    if (reel.item != "14awg-2") continue;
    EXPECT_TRUE(reel.length_m == 25 || reel.length_m == 50);
    EXPECT_NEAR(reel.used_m, used_m[reel.number], 1e-9);
    EXPECT_LE(reel.used_m * 1.1, reel.length_m + 1e-9);
    bought_m += reel.length_m;
  }
  EXPECT_DOUBLE_EQ(bought_m, 75);  // 70.62 m with waste: no less can be had
  EXPECT_DOUBLE_EQ(list.cables[1].bought_m, 75);
}

TEST(CutList, CutLongerThanAnyCoilIsOrderedByLengthAndSaidSo) {
  MaterialsOptions options;
  options.coils = {{"12awg-2", {20}}};
  const Materials list = materials(tests::two_hub_garden(), {}, options);
  EXPECT_DOUBLE_EQ(list.cables[0].bought_m, 20 + 35);  // 15.6 m in a coil of 20, 31.3 m with waste on its own
  ASSERT_EQ(list.problems.size(), 1u);
  EXPECT_EQ(list.problems[0].value, "run-1");
}

}  // namespace
}  // namespace duskwire::estimate
