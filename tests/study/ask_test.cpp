// SPDX-License-Identifier: Apache-2.0
#include "study/ask.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "study/wired_jobs.hpp"

namespace duskwire::study {
namespace {

constexpr double ft_300_m = 91.44;
constexpr double ft_350_m = 106.68;

Question thirty_lamps() {
  Question question;
  question.lamps = 30;
  question.lamp_w = 4;
  question.length_m = ft_300_m;
  question.tap_v = 15;
  question.cable = tests::stock().cables[2];  // 12 AWG
  question.cables = tests::stock().cables;
  return question;
}

Answer answer(const Question& question) {
  const Result<Answer> result = ask(question);
  EXPECT_TRUE(result.ok()) << (result.ok() ? "" : result.error().message);
  return result.ok() ? result.value() : Answer();
}

std::string refusal(const Question& question) {
  const Result<Answer> result = ask(question);
  EXPECT_FALSE(result.ok());
  return result.ok() ? "" : result.error().message;
}

// Common practice, no source: thirty 4 W lamps evenly over 300 ft of 12 AWG sit right at the edge on a 15 V tap.
TEST(Ask, ThirtyLampsOver300FeetHoldOnTap15Only) {
  const Answer held = answer(thirty_lamps());
  EXPECT_TRUE(held.holds);
  EXPECT_GT(held.last_v, 9);
  EXPECT_LT(held.last_v, 10);
  EXPECT_EQ(held.last_state, electrical::LampState::regulated);
  EXPECT_GT(held.load_margin, 1);
  EXPECT_LT(held.load_margin, 1.15);

  Question low = thirty_lamps();
  low.tap_v = 12;
  EXPECT_FALSE(answer(low).holds);
  EXPECT_EQ(answer(low).last_state, electrical::LampState::dim);
  EXPECT_EQ(answer(low).load_margin, 0);

  Question far = thirty_lamps();
  far.length_m = ft_350_m;
  EXPECT_FALSE(answer(far).holds);
  EXPECT_LT(answer(far).last_light, 1);
}

// One lumped load at the end: V = (E + sqrt(E^2 - 4 R S)) / 2, the steady state of constant power behind a resistance.
TEST(Ask, LampsAtTheEndFollowTheClosedForm) {
  Question question = thirty_lamps();
  question.spread = Spread::end;
  question.lamps = 8;
  question.source_ohm = 0.03;
  question.power_factor = 0.8;
  question.tap_v = 13;
  question.length_m = 20;
  const double loop_ohm = 0.03 + 2 * 20 * 0.005211;
  const double load_va = 8 * 4 / 0.8;
  const double expected_v = (13 + std::sqrt(13 * 13 - 4 * loop_ohm * load_va)) / 2;
  const Answer found = answer(question);
  EXPECT_NEAR(found.last_v, expected_v, 1e-8);
  EXPECT_NEAR(found.current_a, load_va / expected_v, 1e-8);
  EXPECT_NEAR(found.load_va, found.current_a * (13 - 0.03 * found.current_a), 1e-8);
  EXPECT_DOUBLE_EQ(found.lamp_va, load_va);
  // At the edge of the window: S = V (E - V) / R.
  EXPECT_NEAR(found.load_margin, 9 * (13 - 9) / loop_ohm / load_va, 1e-3);
  EXPECT_NEAR(found.short_a, 13 / loop_ohm, 1e-8);
}

TEST(Ask, HubAddsItsLeadsAndTeeHalvesTheArms) {
  Question question = thirty_lamps();
  question.lamps = 6;
  question.spread = Spread::end;
  const double end_v = answer(question).last_v;
  question.spread = Spread::hub;
  question.lead_length_m = 0;
  EXPECT_NEAR(answer(question).last_v, end_v, 1e-9);
  question.lead_length_m = 10;
  const double lead_drop_v = 2 * 10 * question.lead_ohm_per_m_20c * (4 / answer(question).last_v);
  EXPECT_NEAR(answer(question).last_v, end_v - lead_drop_v, 0.01);
  question.spread = Spread::tee;
  const double tee_v = answer(question).last_v;
  question.spread = Spread::chain;
  // Same reach: the tee's first half carries all lamps, its arms half of them each.
  EXPECT_GT(tee_v, end_v);
  EXPECT_LT(tee_v, answer(question).last_v);
}

TEST(Ask, HowManyLampsIsTheMostThatHold) {
  Question question = thirty_lamps();
  question.lamps.reset();
  const Answer most = answer(question);
  EXPECT_EQ(most.asked, Asked::lamps);
  EXPECT_TRUE(most.found && most.holds);
  question.lamps = most.lamps;
  EXPECT_TRUE(answer(question).holds);
  question.lamps = most.lamps + 1;
  EXPECT_FALSE(answer(question).holds);
  EXPECT_THAT(most.sentence, testing::StartsWith("At most " + std::to_string(most.lamps) + " lamps."));
}

TEST(Ask, HowFarIsTheLengthAtWhichTheLastLampIsAtItsEdge) {
  Question question = thirty_lamps();
  question.length_m.reset();
  const Answer most = answer(question);
  EXPECT_TRUE(most.found && most.holds);
  EXPECT_NEAR(most.last_v, 9, 0.01);
  EXPECT_GT(most.length_m, ft_300_m);
  EXPECT_LT(most.length_m, ft_350_m);
  question.length_m = most.length_m + 0.02;
  EXPECT_FALSE(answer(question).holds);
}

TEST(Ask, WhichTapIsTheLowestThatHolds) {
  Question question = thirty_lamps();
  question.tap_v.reset();
  const Answer found = answer(question);
  EXPECT_EQ(found.tap_v, 15);
  ASSERT_EQ(found.tried.size(), 4u);
  EXPECT_FALSE(found.tried[2].holds);
  EXPECT_TRUE(found.tried[3].holds);
  EXPECT_NEAR(found.tried[3].last_v, found.last_v, 1e-9);
  question.length_m = ft_350_m;
  const Answer nothing = answer(question);
  EXPECT_FALSE(nothing.found);
  EXPECT_EQ(nothing.tap_v, 15) << "the best try";
  EXPECT_THAT(nothing.sentence, testing::StartsWith("None of these 4 taps."));
}

TEST(Ask, WhichCableIsTheThinnestThatHolds) {
  Question question = thirty_lamps();
  question.cable.reset();
  const Answer found = answer(question);
  EXPECT_EQ(found.cable.id, "12awg-2");
  ASSERT_EQ(found.tried.size(), 5u);
  EXPECT_FALSE(found.tried[1].holds);
  EXPECT_EQ(found.tried[1].name, "14awg-2");
  question.tap_v = 12;
  question.length_m = 300;
  EXPECT_FALSE(answer(question).found);
}

TEST(Ask, MainsToleranceIsPartOfHolding) {
  Question question = thirty_lamps();
  question.mains_tolerance_pct = 5;
  const Answer found = answer(question);
  EXPECT_FALSE(found.holds) << "9.1 V leave no room for low mains";
  EXPECT_LT(found.worst_low_v, 9);
  EXPECT_GT(found.worst_high_v, 15);
  question.length_m.reset();
  EXPECT_THAT(answer(question).sentence, testing::StartsWith("Not on this tap"));
  question.tap_v = 14;
  const Answer lower = answer(question);
  EXPECT_TRUE(lower.holds);
  EXPECT_NEAR(lower.worst_low_v, 9, 0.01);
}

TEST(Ask, EndlessRoomIsCalledUnbounded) {
  Question question = thirty_lamps();
  question.lamp_w = 0.02;
  question.lamps = 1;
  question.length_m.reset();
  const Answer found = answer(question);
  EXPECT_TRUE(found.unbounded);
  EXPECT_EQ(found.length_m, most_asked_length_m);
}

TEST(Ask, OneLampOnEachSpreadIsAnswered) {
  for (const Spread spread : {Spread::chain, Spread::end, Spread::hub, Spread::tee}) {
    Question question = thirty_lamps();
    question.spread = spread;
    question.lamps = 1;
    EXPECT_TRUE(answer(question).holds);
  }
}

TEST(Ask, WarmCableDropsMore) {
  Question question = thirty_lamps();
  question.lamps = 10;
  const double cold_v = answer(question).last_v;
  question.cable_c = 40;
  EXPECT_LT(answer(question).last_v, cold_v);
}

TEST(Ask, NonsenseIsRefusedWithTheRange) {
  Question two_gaps = thirty_lamps();
  two_gaps.lamps.reset();
  two_gaps.tap_v.reset();
  EXPECT_THAT(refusal(two_gaps), testing::HasSubstr("More than one part is left out"));
  Question negative = thirty_lamps();
  negative.length_m = -3;
  EXPECT_THAT(refusal(negative), testing::HasSubstr("-3 m"));
  Question none_asked = thirty_lamps();
  none_asked.lamps = 0;
  EXPECT_THAT(refusal(none_asked), testing::HasSubstr("expected 1 to"));
  Question not_a_number = thirty_lamps();
  not_a_number.lamp_w = std::nan("");
  EXPECT_THAT(refusal(not_a_number), testing::HasSubstr("the power of a lamp"));
  Question upside_down = thirty_lamps();
  upside_down.window_max_v = 8;
  EXPECT_THAT(refusal(upside_down), testing::HasSubstr("upper end of the window"));
  Question no_cables = thirty_lamps();
  no_cables.cable.reset();
  no_cables.cables.clear();
  EXPECT_THAT(refusal(no_cables), testing::HasSubstr("no cables to choose from"));
}

TEST(Ask, SentenceIsInTheUnitsAskedFor) {
  const Result<Answer> in_feet = ask(thirty_lamps(), job::DisplayUnits::us);
  ASSERT_TRUE(in_feet.ok());
  EXPECT_EQ(in_feet.value().sentence,
            "30 lamps of 4 W over 300 ft of 12 AWG on tap 15: the last lamp sees 9.1 V and is in regulation. It takes "
            "1 % more load or 1 % more length to lose the first lamp.");
}

}  // namespace
}  // namespace duskwire::study
