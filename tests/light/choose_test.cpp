// SPDX-License-Identifier: Apache-2.0
// Worked examples of the trade: a crown 5 m wide from 2 to 7.5 m with an uplight 1.5 m from its trunk, and a straight
// walk of 14 m with risers at 9 m.
#include "light/choose.hpp"

#include <gtest/gtest.h>

namespace duskwire::light {
namespace {

TEST(Choose, BeamDistanceAndAimOfACrown) {
  const CrownNeed need = crown_need({5, 2, 7.5}, 1.5);
  EXPECT_NEAR(need.distance_m, 4.98, 0.05);
  EXPECT_NEAR(need.beam_deg, 53, 1);
  EXPECT_NEAR(need.tilt_deg, 72.5, 0.1);
}

// Tight palm head 3 m wide from 6 to 9 m, 0.8 m from its trunk: 22 degrees.
TEST(Choose, BeamOfATightPalmHead) { EXPECT_NEAR(crown_need({3, 6, 9}, 0.8).beam_deg, 22, 1); }

TEST(Choose, ACrownTakesOneWideBeamOrTwoNarrowerOnes) {
  const double distance_m = crown_need({5, 2, 7.5}, 1.5).distance_m;
  EXPECT_EQ(lamps_across(5, spot_m(60, distance_m)), 1u);
  EXPECT_EQ(lamps_across(5, spot_m(36, distance_m)), 2u);
  EXPECT_NEAR(spot_m(36, distance_m), 3.2, 0.05);
  EXPECT_NEAR(spot_m(15, distance_m), 1.3, 0.05);
  EXPECT_GT(lamps_across(5, spot_m(15, distance_m)), most_lamps_of_tree(7.5));
}

TEST(Choose, LumensAndLampsGrowWithTheTree) {
  EXPECT_EQ(tree_flux_lm(3.5), 280);
  EXPECT_EQ(tree_flux_lm(7.5), 400);
  EXPECT_EQ(tree_flux_lm(15), 1600);
  EXPECT_NEAR(tree_flux_lm(11.5), 1000, 1e-9);
  EXPECT_EQ(most_lamps_of_tree(5), 2u);
  EXPECT_GE(most_lamps_of_tree(15), 3u);
  EXPECT_LE(most_lamps_of_tree(40), 5u);
}

TEST(Choose, DenseCrownsAreLitFromOutsideTheirDripLine) {
  EXPECT_NEAR(tree_setback_m(5, 0.3), 1.5, 1e-12);
  EXPECT_NEAR(tree_setback_m(5, 0.1), 3, 1e-12);
}

TEST(Choose, AWallIsWashedFromAThirdOfItsHeightAtOneToOneAndAHalfSetbacks) {
  const WallNeed need = wall_need(8, 3);
  EXPECT_NEAR(need.setback_m, 1, 1e-12);
  EXPECT_EQ(need.count, 6u);
  EXPECT_GE(need.spacing_m, need.setback_m);
  EXPECT_LE(need.spacing_m, 1.5 * need.setback_m);
  EXPECT_NEAR(need.beam_deg, 71.6, 0.1);
}

TEST(Choose, AWalkHasSixLightsAtEvenPitchOnAlternatingSides) {
  const WalkPlan plan = walk_plan(14, 2.44, 2.6);
  ASSERT_EQ(plan.lights.size(), 6u);
  EXPECT_NEAR(plan.pitch_m, 2.33, 0.01);
  EXPECT_NEAR(plan.lights.front().along_m, plan.pitch_m / 2, 1e-9);
  EXPECT_NEAR(plan.lights.back().along_m, 14 - plan.pitch_m / 2, 1e-9);
  for (std::size_t i = 1; i < plan.lights.size(); ++i) EXPECT_NE(plan.lights[i].left, plan.lights[i - 1].left);
  EXPECT_LE(longest_gap_m(plan.lights), 2.44);
  EXPECT_EQ(runway(plan.lights), Runway::none);
}

TEST(Choose, RisersFarFromEveryLightGetAStepLight) {
  const WalkPlan plan = walk_plan(14, 2.44, 2.6);
  EXPECT_NEAR(nearest_light_m(plan.lights, 9), 0.83, 0.01);
  EXPECT_TRUE(needs_step_light(plan.lights, 9));
  EXPECT_FALSE(needs_step_light(plan.lights, 8.3));
}

TEST(Choose, TheSameLightsAsFacingPairsAreARunway) {
  const WalkPlan plan = walk_plan(14, 2.44, 2.6);
  std::vector<WalkLight> pairs;
  for (std::size_t i = 0; i < plan.lights.size(); i += 2) {
    pairs.push_back({plan.lights[i].along_m, true});
    pairs.push_back({plan.lights[i].along_m, false});
  }
  EXPECT_EQ(runway(pairs), Runway::facing_pairs);
}

TEST(Choose, TheSameLightsInOneRowAreARunway) {
  WalkPlan plan = walk_plan(14, 2.44, 2.6);
  for (WalkLight& light : plan.lights) light.left = true;
  EXPECT_EQ(runway(plan.lights), Runway::one_row);
  plan.lights[2].along_m += 0.8;
  EXPECT_EQ(runway(plan.lights), Runway::none);
}

TEST(Choose, NarrowPoolsBringLightsNearer) { EXPECT_EQ(walk_plan(14, 2.44, 2.0).lights.size(), 7u); }

}  // namespace
}  // namespace duskwire::light
