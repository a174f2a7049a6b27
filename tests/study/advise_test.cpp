// SPDX-License-Identifier: Apache-2.0
#include "study/advise.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "study/check.hpp"
#include "study/wired_jobs.hpp"

namespace duskwire::study {
namespace {

using testing::AllOf;
using testing::HasSubstr;

const TapVerdict& tap(const TapAdvice& advice, double tap_v) {
  return *std::find_if(advice.taps.begin(), advice.taps.end(),
                       [&](const TapVerdict& verdict) { return verdict.tap_v == tap_v; });
}

const TransformerChoice& choice(const TransformerAdvice& advice, const std::string& item) {
  return *std::find_if(advice.choices.begin(), advice.choices.end(),
                       [&](const TransformerChoice& one) { return one.item == item; });
}

TapAdvice tap_advice(const job::Job& job) { return advise(job, tests::stock()).taps.at(0); }

// Acceptance example: tap by corners.
TEST(AdviseTap, TwoSpliceSiteTakesTap13) {
  const TapAdvice advice = tap_advice(tests::two_splice_site());
  EXPECT_EQ(advice.output, "T-A");
  ASSERT_EQ(advice.taps.size(), 4u);
  const TapVerdict& twelve = tap(advice, 12);
  EXPECT_FALSE(twelve.fits);
  EXPECT_NEAR(twelve.lowest_v, 9.62, 0.03);
  EXPECT_EQ(twelve.lowest_lamp, "F8");
  EXPECT_EQ(twelve.lowest_corner, "mains low");
  ASSERT_TRUE(advice.chosen_tap_v);
  EXPECT_EQ(*advice.chosen_tap_v, 13);
  const TapVerdict& thirteen = tap(advice, 13);
  EXPECT_TRUE(thirteen.fits && thirteen.chosen && thirteen.present);
  EXPECT_NEAR(thirteen.lowest_v, 10.75, 0.03);
  EXPECT_NEAR(thirteen.highest_v, 12.53, 0.03);
  EXPECT_NEAR(thirteen.current_a, 3.59, 0.02);
  EXPECT_TRUE(advice.changes.empty()) << "it is on that tap already";
  EXPECT_EQ(advice.reason,
            "Tap 13 is the lowest that keeps every lamp of T-A inside its window in every corner (10.75 V to 12.53 V); "
            "on tap 12 F8 falls to 9.62 V (mains low), below 10 V.");
}

TEST(AdviseTap, NarrowerWindowTakesTap14) {
  job::Job job = tests::two_splice_site();
  tests::set_window(job, 10.8, 15);
  const TapAdvice advice = tap_advice(job);
  EXPECT_EQ(advice.chosen_tap_v, 14);
  EXPECT_NEAR(tap(advice, 14).lowest_v, 11.85, 0.03);
  EXPECT_NEAR(tap(advice, 14).highest_v, 13.67, 0.03);
  EXPECT_FALSE(tap(advice, 13).fits);
  EXPECT_NEAR(tap(advice, 13).lowest_v, 10.75, 0.03);
  EXPECT_THAT(advice.reason, HasSubstr("on tap 13 F8 falls to 10.75 V (mains low), below 10.8 V"));
  ASSERT_EQ(advice.changes.size(), 1u);
  EXPECT_EQ(advice.changes[0].kind, job::ChangeKind::set_tap);
  EXPECT_EQ(advice.changes[0].number, 14);
}

TEST(AdviseTap, AdvisedTapsLeaveNoLampOutOfItsWindow) {
  job::Job job = tests::chained_garden(3, 12, 12);
  job.site.corners = {};
  job.transformers[0].outputs[1].tap_v = 15;
  job.catalogue.transformers[3].r_shared_ohm = 0.02;  // tr-600: its outputs pull each other down
  const Advice advice = advise(job, tests::stock());
  ASSERT_EQ(advice.taps.size(), 2u);
  std::vector<job::Change> changes;
  for (const TapAdvice& one : advice.taps) {
    EXPECT_TRUE(one.chosen_tap_v);
    changes.insert(changes.end(), one.changes.begin(), one.changes.end());
  }
  const auto advised = job::apply(job, changes, {});
  ASSERT_TRUE(advised.ok());
  for (const LampReport& lamp : check(advised.value(), {}, {}, {false}).lamps) {
    EXPECT_GE(lamp.worst_low_v, lamp.window_min_v) << lamp.id;
    EXPECT_LE(lamp.worst_high_v, lamp.window_max_v) << lamp.id;
    const TapAdvice& mine = lamp.output == "T-A" ? advice.taps[0] : advice.taps[1];
    const TapVerdict& verdict = tap(mine, *mine.chosen_tap_v);
    EXPECT_GE(lamp.worst_low_v, verdict.lowest_v - 1e-6) << "judged with the other output on its advised tap";
    EXPECT_LE(lamp.worst_high_v, verdict.highest_v + 1e-6);
  }
}

TEST(AdviseTap, TapInsideTheWindowButNearCollapseIsPassedOver) {
  job::Job job = tests::chained_garden(1, 20, 12);
  job.site.corners.mains_tolerance_pct = 0;
  tests::set_window(job, 9, 15);
  const TapAdvice advice = tap_advice(job);
  EXPECT_TRUE(tap(advice, 12).fits) << "9.1 V at the last lamp";
  EXPECT_LT(tap(advice, 12).load_margin, 1.15);
  EXPECT_EQ(advice.chosen_tap_v, 13);
  EXPECT_THAT(advice.reason, AllOf(HasSubstr("with a reserve"), HasSubstr("more load or length")));
}

TEST(AdviseTap, NoTapDoesIsSaid) {
  job::Job job = tests::chained_garden(1, 60, 12);
  const TapAdvice advice = tap_advice(job);
  EXPECT_FALSE(advice.chosen_tap_v);
  EXPECT_TRUE(advice.changes.empty());
  EXPECT_THAT(advice.reason, testing::StartsWith("No tap of T keeps every lamp of T-A"));
}

TEST(AdviseTap, MixedWindowsAreEachKept) {
  job::Job job = tests::two_splice_site();
  job::LuminaireItem& wash = job.catalogue.luminaires[2];  // F8
  wash.window_min_v = 9;
  job::LuminaireItem& uplight = job.catalogue.luminaires[0];  // F1 to F4
  uplight.window_min_v = 11.1;
  const TapAdvice advice = tap_advice(job);
  EXPECT_EQ(tap(advice, 13).lowest_lamp, "F8");
  EXPECT_EQ(tap(advice, 13).low_room_lamp, "F1") << "11.06 V at low mains, 11.1 V wanted";
  EXPECT_LT(tap(advice, 13).low_room_v, 0);
  EXPECT_EQ(advice.chosen_tap_v, 14);
}

// Acceptance example: VA, not watts.
TEST(AdviseTransformer, FiftyTwoFixturesOf266WattsAskFor600VoltAmperes) {
  TransformerNeed need;
  need.lamp_count = 52;
  need.lamp_w = 266;
  need.lamp_va = 266 / 0.70;
  EXPECT_NEAR(need.lamp_va, 380, 0.5);
  const TransformerAdvice advice = size_transformer(need, tests::stock().transformers);
  EXPECT_EQ(advice.chosen_item, "tr-600");
  EXPECT_EQ(advice.needed_outputs, 2u) << "each at most 240 VA: 80 % of 25 A at 12 V";
  EXPECT_NEAR(advice.needed_va, 475, 0.5);
  const TransformerChoice& small = choice(advice, "tr-300");
  EXPECT_FALSE(small.fits);
  EXPECT_THAT(small.reason,
              AllOf(testing::StartsWith("refused: 380 VA are to be delivered"), HasSubstr("240 VA (80 % of 300 VA)"),
                    HasSubstr("that 266 W is less than 300 does not count, the lamps draw 380 VA")));
  EXPECT_THAT(advice.reason, AllOf(HasSubstr("266 W draw 380 VA"), HasSubstr("asks for 475 VA and 2 outputs")));
}

TEST(AdviseTransformer, EnoughVoltAmperesOnTooFewOutputsAreRefused) {
  TransformerNeed need;
  need.lamp_count = 40;
  need.lamp_w = need.lamp_va = 300;
  job::TransformerItem big = tests::stock().transformers[2];
  big.id = "one-big-output";
  big.rating_va = 900;
  const TransformerAdvice advice = size_transformer(need, {big});
  EXPECT_TRUE(advice.chosen_item.empty());
  EXPECT_THAT(choice(advice, "one-big-output").reason, HasSubstr("2 outputs needed, each carries 240 VA at most"));
  EXPECT_THAT(advice.reason, HasSubstr("none on offer does"));
}

TEST(AdviseTransformer, UnitWithoutTheTapOrForIndoorsIsRefused) {
  TransformerNeed need;
  need.lamp_count = 5;
  need.lamp_w = need.lamp_va = 30;
  need.taps_v = {15};
  job::TransformerItem low = tests::stock().transformers[1];
  low.taps_v = {12, 13};
  job::TransformerItem indoors = tests::stock().transformers[2];
  indoors.outdoor_listed = false;
  const TransformerAdvice advice = size_transformer(need, {low, indoors});
  EXPECT_THAT(advice.choices[0].reason, HasSubstr("no tap of 15 V"));
  EXPECT_THAT(advice.choices[1].reason, HasSubstr("not listed for outdoors"));
}

TEST(AdviseTransformer, SmallSiteKeepsItsUnitAndCountsCableLosses) {
  const Advice advice = advise(tests::two_splice_site(), tests::stock());
  ASSERT_EQ(advice.transformers.size(), 1u);
  const TransformerAdvice& unit = advice.transformers[0];
  EXPECT_NEAR(unit.need.lamp_va, 42, 1e-9);
  EXPECT_GT(unit.need.load_va, 46.7) << "46.7 VA at the tap nominally, more at high mains";
  EXPECT_EQ(unit.chosen_item, "ideal");
  EXPECT_TRUE(choice(unit, "ideal").present);
  EXPECT_TRUE(unit.changes.empty());
}

TEST(AdviseTransformer, UnitThatIsTooSmallIsChangedForTheCheapestThatDoes) {
  job::Job job = tests::chained_garden(2, 20, 14);  // 120 VA of lamps
  job.transformers[0].item = "tr-150";
  for (job::Cable& cable : job.cables) {
    if (cable.from == "T-B") cable.from = "T-A";
  }
  job.transformers[0].outputs.pop_back();
  const Advice advice = advise(job, tests::stock());
  const TransformerAdvice& unit = advice.transformers.at(0);
  EXPECT_FALSE(choice(unit, "tr-150").fits);
  EXPECT_THAT(unit.reason, HasSubstr("tr-150 is refused"));
  ASSERT_EQ(unit.changes.size(), 1u);
  EXPECT_EQ(unit.changes[0].text, unit.chosen_item);
  EXPECT_TRUE(choice(unit, unit.chosen_item).fits);
}

// Acceptance example: fault-current gate.
TEST(AdviseProtection, FarShortThatDoesNotTripGetsASmallerDevice) {
  const Advice far = advise(tests::single_run(60), tests::stock());
  ASSERT_EQ(far.protection.size(), 1u);
  EXPECT_FALSE(far.protection[0].trips);
  EXPECT_NEAR(far.protection[0].far_short_a, 19.8, 0.3);
  EXPECT_EQ(far.protection[0].suggested_limit_a, 15);
  EXPECT_THAT(far.protection[0].reason, AllOf(HasSubstr("may never open"), HasSubstr("One of 15 A")));
  const Advice near = advise(tests::single_run(20), tests::stock());
  EXPECT_TRUE(near.protection[0].trips);
  EXPECT_NEAR(near.protection[0].far_short_a, 54, 0.6);
  EXPECT_TRUE(near.protection[0].changes.empty());
}

TEST(AdviseProtection, NoDeviceCarriesTheLoadAndSeesTheShort) {
  job::Job job = tests::chained_garden(1, 40, 15);  // 200 m of 12 AWG, loaded to the edge
  const Advice advice = advise(job, tests::stock());
  ASSERT_EQ(advice.protection.size(), 1u);
  EXPECT_FALSE(advice.protection[0].trips);
  EXPECT_FALSE(advice.protection[0].suggested_limit_a);
  EXPECT_THAT(advice.protection[0].reason, HasSubstr("shorten the run or take thicker cable"));
}

TEST(Advise, EmptyJobHasNoAdvice) {
  const Advice advice = advise({}, {});
  EXPECT_TRUE(advice.taps.empty());
  EXPECT_TRUE(advice.transformers.empty());
  EXPECT_TRUE(advice.protection.empty());
}

}  // namespace
}  // namespace duskwire::study
