// SPDX-License-Identifier: Apache-2.0
#include "study/sight.hpp"

#include <gtest/gtest.h>

#include "study/levels.hpp"
#include "study/lit_jobs.hpp"

namespace duskwire::study {
namespace {

// Trade's acceptance example for glare: an uplight at (6, 2), lens at 0.15 m, aimed at (6, 6, 5); a neighbour's window
// at (14, 18, 4.5). Off-axis angle 42.7 degrees, by hand: acos((16 * 4 + 4.85 * 4.35) / (6.287 * 18.410)).
job::Job uplight_and_neighbour() {
  job::Job job = tests::bare_lot();
  job::Luminaire& lamp = tests::place_lamp(job, "F1", "bullet-36", {6, 2, 0.15});
  const Aim aim = aim_of(job.plan, geometry::Point3{6, 6, 5} - geometry::Point3{6, 2, 0.15});
  lamp.azimuth_deg = aim.azimuth_deg == 0 ? 360 : aim.azimuth_deg;
  lamp.tilt_deg = aim.tilt_deg;
  tests::add_eye(job, "eye", job::ViewPointKind::neighbour_window, {14, 18, 4.5}).name = "neighbour bedroom";
  return job;
}

const SightLine& only_sight(const Levels& levels) { return levels.sights.at(0); }

LevelsOptions no_plan() {
  LevelsOptions options;
  options.plan = false;
  return options;
}

TEST(Sight, WithoutAShieldTheNeighbourSeesTheLampAndTheQuoteIsBlocked) {
  const job::Job job = uplight_and_neighbour();
  const Levels found = levels(job, {}, no_plan());
  EXPECT_NEAR(only_sight(found).off_axis_deg, 42.7, 0.3);
  EXPECT_EQ(only_sight(found).state, SightState::visible);
  EXPECT_EQ(only_sight(found).words, "lamp visible from neighbour bedroom");
  EXPECT_FALSE(found.sound);
  EXPECT_TRUE(found.blocks_quote);
  ASSERT_FALSE(found.findings.empty());
  EXPECT_EQ(found.findings[0].id, "light/lamp-visible");
  EXPECT_EQ(found.findings[0].subject, "F1");
}

TEST(Sight, AShieldThatCutsOffBeforeHidesTheLamp) {
  job::Job job = uplight_and_neighbour();
  job.luminaires[0].shield_cut_off_deg = 40;
  const Levels found = levels(job, {}, no_plan());
  EXPECT_EQ(only_sight(found).state, SightState::shielded);
  EXPECT_EQ(only_sight(found).words, "lamp hidden");
  EXPECT_FALSE(found.blocks_quote);
}

TEST(Sight, AShieldThatCutsOffLaterDoesNot) {
  job::Job job = uplight_and_neighbour();
  job.luminaires[0].shield_cut_off_deg = 45;
  EXPECT_EQ(only_sight(levels(job, {}, no_plan())).state, SightState::visible);
}

TEST(Sight, WhatIsAcceptedNoLongerBlocks) {
  job::Job job = uplight_and_neighbour();
  job.light.accepted.push_back({"F1", "eye", "agreed", {}});
  const Levels found = levels(job, {}, no_plan());
  EXPECT_EQ(only_sight(found).state, SightState::accepted);
  EXPECT_FALSE(found.blocks_quote);
}

TEST(Sight, AWallBetweenHidesTheLampAndALowOneDoesNot) {
  job::Job job = uplight_and_neighbour();
  tests::add_area(job, "wall", job::GroundKind::wall, tests::rectangle(0, 10, 20, 10.3), 3);
  EXPECT_EQ(only_sight(levels(job, {}, no_plan())).state, SightState::blocked);  // the line is 2.3 m up there
  job.plan.areas[0].height_m = 2;
  EXPECT_EQ(only_sight(levels(job, {}, no_plan())).state, SightState::visible);
}

TEST(Sight, ALampThatLooksAwayIsHidden) {
  job::Job job = uplight_and_neighbour();
  job.luminaires[0].azimuth_deg = 180;
  job.luminaires[0].tilt_deg = 10;
  EXPECT_EQ(only_sight(levels(job, {}, no_plan())).state, SightState::turned_away);
}

TEST(Sight, EyesAboveAPathLightSeeItsHoodOnly) {
  job::Job job = tests::bare_lot();
  tests::place_lamp(job, "P1", "path", {0, 0, 0.5});
  tests::add_eye(job, "seat", job::ViewPointKind::seat, {3, 0, 1.2});
  tests::add_eye(job, "dog", job::ViewPointKind::seat, {3, 0, 0.2});
  const Levels found = levels(job, {}, no_plan());
  EXPECT_EQ(found.sights.at(0).state, SightState::turned_away);
  EXPECT_EQ(found.sights.at(1).state, SightState::visible);
}

TEST(Sight, OtherEyesAreWarnedOfBrightLampsOnly) {
  job::Job job = uplight_and_neighbour();
  job.plan.view_points[0] = {"street", "the street", job::ViewPointKind::street, {6, 8, 6.5}, {}};
  Levels found = levels(job, {}, no_plan());
  ASSERT_EQ(found.findings.empty() ? "" : found.findings[0].id, "light/bright-to-look-at");
  EXPECT_TRUE(found.sound);
  job.luminaires[0].dim_pct = 0;
  found = levels(job, {}, no_plan());
  for (const Finding& finding : found.findings) EXPECT_NE(finding.id, "light/bright-to-look-at");
}

}  // namespace
}  // namespace duskwire::study
