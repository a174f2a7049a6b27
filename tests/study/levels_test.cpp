// SPDX-License-Identifier: Apache-2.0
#include "study/levels.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "study/lit_jobs.hpp"
#include "study/lit_scene.hpp"

namespace duskwire::study {
namespace {

LevelsOptions no_plan() {
  LevelsOptions options;
  options.plan = false;
  return options;
}

const PlaceLevels* find_place(const Levels& levels, const std::string& id) {
  const auto found = std::find_if(levels.places.begin(), levels.places.end(),
                                  [&](const PlaceLevels& place) { return place.id == id; });
  return found == levels.places.end() ? nullptr : &*found;
}

LevelSets two_sets() {
  LevelTarget strict;
  strict.id = "walk";
  strict.title = "Walk";
  strict.average_lx = 1000;
  LevelTarget mild = strict;
  mild.average_lx = 0.001;
  return {{"strict", "Strict", "", {strict}}, {"mild", "Mild", "", {mild}}};
}

// A downlight 4 m over the ground: E = I0 / 16 below it.
job::Job downlight_over_walk() {
  job::Job job = tests::bare_lot();
  tests::add_area(job, "walk", job::GroundKind::paving, tests::rectangle(-5, -0.6, 5, 0.6)).name = "Walk";
  tests::place_lamp(job, "D1", "downlight-60", {0, 0, 4}).tilt_deg = -90;
  return job;
}

TEST(Levels, AWalkHasItsMiddleItsWidthAndTheInverseSquareBelowALamp) {
  const job::Job job = downlight_over_walk();
  const LitJob lit = lit_scene(job);
  const double peak_cd = intensity_cd(lit.scene.distributions[0], 0, 0);
  const Levels found = levels(job, {}, no_plan());
  const PlaceLevels* walk = find_place(found, "walk");
  ASSERT_NE(walk, nullptr);
  EXPECT_EQ(walk->place, LitPlace::path);
  EXPECT_NEAR(walk->length_m.value(), 10, 1e-6);
  EXPECT_NEAR(walk->width_m.value(), 1.2, 1e-6);
  EXPECT_NEAR(walk->centreline->maximum_lx, peak_cd / 16, 0.01 * peak_cd / 16);
  EXPECT_LT(walk->lit.minimum_lx, walk->lit.average_lx);
  EXPECT_NEAR(walk->lit.uniformity, walk->lit.minimum_lx / walk->lit.average_lx, 1e-12);
  EXPECT_NEAR(std::abs(walk->lit.minimum_at.x_m), 4.875, 0.2);  // the ends are darkest
}

TEST(Levels, DimmingScalesAllLightAlike) {
  job::Job job = downlight_over_walk();
  const double full_lx = find_place(levels(job, {}, no_plan()), "walk")->lit.average_lx;
  job.luminaires[0].dim_pct = 40;
  EXPECT_NEAR(find_place(levels(job, {}, no_plan()), "walk")->lit.average_lx, 0.4 * full_lx, 1e-4 * full_lx);
}

TEST(Levels, AHouseBetweenLeavesTheWalkDark) {
  job::Job job = downlight_over_walk();
  tests::add_area(job, "roof", job::GroundKind::building, tests::rectangle(-6, 1, 6, 3), 6);
  job.luminaires[0].position = geometry::Point3{0, 5, 4};
  job.luminaires[0].azimuth_deg = 180;
  job.luminaires[0].tilt_deg = -40;
  EXPECT_EQ(find_place(levels(job, {}, no_plan()), "walk")->lit.maximum_lx, 0);
}

// Of a target in several parts only those that are missed are called so: light from above lacks light upright alone.
TEST(Levels, OnlyThePartOfATargetThatIsMissedIsCalledMissed) {
  job::Job job = downlight_over_walk();
  job.light.targets = "mild";
  LevelSets sets = two_sets();
  sets[1].targets[0].upright_average_lx = 5000;
  const Levels found = levels(job, sets, no_plan());
  const LevelVerdict& verdict = find_place(found, "walk")->verdicts[0];
  EXPECT_FALSE(verdict.met);
  EXPECT_EQ(verdict.asked, "0.001 lx on average, 5000 lx upright");
  EXPECT_EQ(verdict.missed, "5000 lx upright");
}

TEST(Levels, SetsDisagreeSideBySideAndOnlyTheOneInForceIsAFinding) {
  job::Job job = downlight_over_walk();
  job.light.targets = "mild";
  Levels found = levels(job, two_sets(), no_plan());
  const PlaceLevels* walk = find_place(found, "walk");
  ASSERT_EQ(walk->verdicts.size(), 2u);
  EXPECT_EQ(walk->verdicts[0].set, "mild");
  EXPECT_TRUE(walk->verdicts[0].in_force);
  EXPECT_TRUE(walk->verdicts[0].met);
  EXPECT_EQ(walk->verdicts[0].missed, "");
  EXPECT_EQ(walk->verdicts[1].set, "strict");
  EXPECT_FALSE(walk->verdicts[1].met);
  EXPECT_TRUE(std::none_of(found.findings.begin(), found.findings.end(),
                           [](const Finding& finding) { return finding.id == "light/strict/walk"; }));
  LevelsOptions options = no_plan();
  options.targets = "strict";
  found = levels(job, two_sets(), options);
  EXPECT_TRUE(std::any_of(found.findings.begin(), found.findings.end(), [](const Finding& finding) {
    return finding.id == "light/strict/walk" && finding.severity == Severity::warning;
  }));
}

TEST(Levels, StepsAreJudgedTreadByTread) {
  job::Job job = tests::bare_lot();
  job::Area& steps = tests::add_area(job, "steps", job::GroundKind::steps, tests::rectangle(0, 0, 2, 1.2), 0.51);
  steps.riser_count = 3;
  steps.ascent_deg = 360;
  tests::place_lamp(job, "D1", "downlight-60", {1, 0.2, 1.6}).tilt_deg = -90;
  const PlaceLevels* place = nullptr;
  const Levels found = levels(job, {}, no_plan());
  place = find_place(found, "steps");
  ASSERT_NE(place, nullptr);
  ASSERT_EQ(place->treads.size(), 3u);
  EXPECT_GT(place->treads[0].lit.average_lx, place->treads[2].lit.average_lx);  // the lamp hangs over the lowest
  EXPECT_GT(place->treads[2].lit.minimum_lx, 0);
}

TEST(Levels, OnlyFacesThatGetLightAreListedWithTheirSide) {
  job::Job job = tests::bare_lot();
  tests::add_area(job, "house", job::GroundKind::building, tests::rectangle(0, 0, 10, 8), 6).name = "House";
  job::Luminaire& wash = tests::place_lamp(job, "W1", "wash-90", {5, -1.5, 0.2});
  wash.azimuth_deg = 360;
  wash.tilt_deg = 45;
  const Levels found = levels(job, {}, no_plan());
  ASSERT_EQ(found.places.size(), 1u);
  EXPECT_EQ(found.places[0].id, "house/0");
  EXPECT_EQ(found.places[0].name, "House, south face");
  EXPECT_EQ(found.places[0].place, LitPlace::facade);
}

TEST(Levels, AnUplitCrownIsBrighterThanTheLawnBelow) {
  job::Job job = tests::bare_lot();
  job::Tree oak;
  oak.id = "oak";
  oak.position = {0, 0};
  oak.height_m = 8;
  oak.crown_width_m = 5;
  oak.crown_base_m = 2;
  job.plan.trees = {oak};
  tests::add_area(job, "lawn", job::GroundKind::lawn, tests::rectangle(-10, -10, 10, 10));
  job::Luminaire& lamp = tests::place_lamp(job, "F1", "bullet-60", {0, -1.5, 0.2});
  lamp.azimuth_deg = 360;
  lamp.tilt_deg = 72;
  tests::add_eye(job, "street", job::ViewPointKind::street, {0, -15, 1.6});
  const Levels found = levels(job, {}, no_plan());
  ASSERT_EQ(found.brightness.size(), 2u);
  EXPECT_EQ(found.brightness[0].id, "oak");
  EXPECT_EQ(found.brightness[0].role, BrightnessRole::focal);
  EXPECT_EQ(found.brightness[1].role, BrightnessRole::dark);
  EXPECT_GT(found.upward.upward_share, 0.9);
}

TEST(Levels, AJobWithoutPlacesHasNoLevelsAndSaysWhy) {
  job::Job job = tests::bare_lot();
  tests::place_lamp(job, "P1", "path", {}).position.reset();
  const Levels found = levels(job, two_sets());
  EXPECT_TRUE(found.places.empty());
  ASSERT_TRUE(found.plan);
  EXPECT_TRUE(found.plan->lx.empty());
  ASSERT_FALSE(found.findings.empty());
  EXPECT_EQ(found.findings[0].id, "light/no-place");
}

TEST(Levels, ALampOfManyLumensUpwardsBreachesTheSetThatLimitsLamps) {
  job::Job job = downlight_over_walk();
  LevelTarget lumens;
  lumens.id = "lumens";
  lumens.place = LitPlace::lamp;
  lumens.most_flux_lm = 400;
  LevelTarget upwards;
  upwards.id = "upwards";
  upwards.place = LitPlace::lamp;
  upwards.most_upward_pct = 0;
  const LevelSets sets{{"garden", "", "", {lumens, upwards}}};
  const auto told = [&](const std::string& id) {
    const Levels found = levels(job, sets, no_plan());
    return std::any_of(found.findings.begin(), found.findings.end(),
                       [&](const Finding& finding) { return finding.id == id; });
  };
  EXPECT_TRUE(told("light/garden/lumens"));
  EXPECT_FALSE(told("light/garden/upwards"));
  job.luminaires[0].tilt_deg = 20;
  EXPECT_TRUE(told("light/garden/upwards"));
}

// A wall lit by a wash lamp, and a walk that no lamp reaches: all its light has bounced.
job::Job lit_wall_over_walk() {
  job::Job job = tests::bare_lot();
  tests::add_area(job, "house", job::GroundKind::building, tests::rectangle(-4, 2, 4, 6), 3);
  tests::add_area(job, "walk", job::GroundKind::paving, tests::rectangle(-4, -2, 4, -0.8)).name = "Walk";
  job::Luminaire& wash = tests::place_lamp(job, "W1", "wash-90", {0, 0.8, 0.2});
  wash.azimuth_deg = 360;
  wash.tilt_deg = 50;
  job.plan.property_line = tests::rectangle(-6, -4, 6, 8);
  return job;
}

TEST(Levels, BounceIsCountedOnlyWhereItIsAskedFor) {
  const job::Job job = lit_wall_over_walk();
  const Levels straight = levels(job, {}, no_plan());
  EXPECT_FALSE(straight.bounce);
  EXPECT_EQ(find_place(straight, "walk")->lit.bounced_lx, 0);
  LevelsOptions options = no_plan();
  options.bounce = true;
  const Levels found = levels(job, {}, options);
  ASSERT_TRUE(found.bounce);
  // The lamp's light times what walls and ground send back of it, less what meets neither.
  EXPECT_GT(found.bounce->patches, 50u);
  EXPECT_GT(found.bounce->sent_lm, 0.15 * found.upward.flux_lm);
  EXPECT_LT(found.bounce->sent_lm, 0.35 * found.upward.flux_lm);
  const PlaceLevels* walk = find_place(found, "walk");
  EXPECT_GT(walk->lit.bounced_lx, 0.05);
  EXPECT_NEAR(walk->lit.average_lx, find_place(straight, "walk")->lit.average_lx + walk->lit.bounced_lx, 1e-4);
  for (std::size_t edge = 0; edge < found.property_line.size(); ++edge) {
    EXPECT_GE(found.property_line[edge].maximum_lx, straight.property_line[edge].maximum_lx - 1e-6);
  }
}

// A face of rho 0.35 seen whole from far before it is a source of E rho / pi cd/m2; at 30 m its 24 m2 are a point:
// E' = E_mean rho A / (pi r^2).
TEST(Levels, AWindowGetsWhatALitFaceSendsThere) {
  job::Job job = lit_wall_over_walk();
  job.plan.property_line.clear();
  tests::add_eye(job, "window", job::ViewPointKind::neighbour_window, {0, -28, 1.5});
  LevelsOptions options = no_plan();
  const Levels straight = levels(job, {}, options);
  options.bounce = true;
  const Levels found = levels(job, {}, options);
  const auto face = std::find_if(straight.places.begin(), straight.places.end(), [](const PlaceLevels& place) {
    return place.place == LitPlace::facade && place.lit.average_lx > 1;
  });
  ASSERT_NE(face, straight.places.end());
  const double expected_lx = face->lit.average_lx * 0.35 * 24 / (3.14159 * 30 * 30);
  EXPECT_NEAR(found.windows.at(0).lx - straight.windows.at(0).lx, expected_lx, 0.15 * expected_lx);
}

TEST(Levels, TheNightPlanHoldsTheBounceToo) {
  const job::Job job = lit_wall_over_walk();
  LevelsOptions options;
  options.cell_m = 0.5;
  const NightPlan straight = levels(job, {}, options).plan.value();
  options.bounce = true;
  const NightPlan found = levels(job, {}, options).plan.value();
  ASSERT_EQ(found.lx.size(), straight.lx.size());
  double more_lx = 0;
  for (std::size_t i = 0; i < found.lx.size(); ++i) {
    EXPECT_GE(found.lx[i], straight.lx[i]);
    more_lx = std::max(more_lx, static_cast<double>(found.lx[i] - straight.lx[i]));
  }
  EXPECT_GT(more_lx, 0.5);
}

}  // namespace
}  // namespace duskwire::study
