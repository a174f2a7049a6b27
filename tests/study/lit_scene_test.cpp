// SPDX-License-Identifier: Apache-2.0
#include "study/lit_scene.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "study/lamp_distribution.hpp"
#include "study/lit_jobs.hpp"

namespace duskwire::study {
namespace {

TEST(LitScene, SolidsStandOverTheirOutlinesAndSayWhoseTheyAre) {
  job::Job job = tests::bare_lot();
  tests::add_area(job, "lawn", job::GroundKind::lawn, tests::rectangle(-20, -20, 20, 20));
  tests::add_area(job, "house", job::GroundKind::building, tests::rectangle(0, 0, 10, 8), 6);
  const LitJob lit = lit_scene(job);
  ASSERT_EQ(lit.scene.solid.triangles.size(), 12u);  // a box
  ASSERT_EQ(lit.things.size(), 1u);
  EXPECT_EQ(lit.things[lit.scene.solid.thing[0]].index, 1u);
  float top_m = 0;
  for (const auto& point : lit.scene.solid.points_m) top_m = std::max(top_m, point[2]);
  EXPECT_EQ(top_m, 6.0F);
}

TEST(LitScene, ABuildingOfUnknownHeightIsOneStoreyAndTold) {
  job::Job job = tests::bare_lot();
  const job::Area shed = tests::add_area(job, "shed", job::GroundKind::building, tests::rectangle(0, 0, 3, 3));
  EXPECT_EQ(solid_height_m(shed), 3);
  const LitJob lit = lit_scene(job);
  ASSERT_EQ(lit.findings.size(), 1u);
  EXPECT_EQ(lit.findings[0].id, "light/no-height");
  EXPECT_EQ(lit.findings[0].pointer, "/plan/areas/0");
}

TEST(LitScene, ATreeIsATrunkBelowItsCrown) {
  job::Job job = tests::bare_lot();
  job::Tree oak;
  oak.position = {6, 8};
  oak.height_m = 13;
  oak.crown_width_m = 9;
  oak.crown_base_m = 3;
  oak.crown_transmittance = 0.2;
  job.plan.trees = {oak};
  const LitJob lit = lit_scene(job);
  ASSERT_EQ(lit.scene.crowns.size(), 1u);
  EXPECT_EQ(lit.scene.crowns[0].centre, (geometry::Point3{6, 8, 8}));
  EXPECT_EQ(lit.scene.crowns[0].half_width_m, 4.5);
  EXPECT_EQ(lit.scene.crowns[0].half_height_m, 5);
  EXPECT_EQ(lit.scene.crowns[0].transmittance, 0.2);
  ASSERT_EQ(lit.things.size(), 1u);
  EXPECT_EQ(lit.things[0].kind, SolidThing::Kind::trunk);
  float top_m = 0;
  for (const auto& point : lit.scene.solid.points_m) top_m = std::max(top_m, point[2]);
  EXPECT_EQ(top_m, 3.0F);
}

TEST(LitScene, ALampDrawnWithinAWallComesOutToItsNearestFace) {
  job::Job job = tests::bare_lot();
  tests::add_area(job, "wall", job::GroundKind::wall, tests::rectangle(0, 0, 10, 0.4), 0.5);
  tests::place_lamp(job, "S1", "path", {5, 0.1, 0.45});
  const LitJob lit = lit_scene(job);
  EXPECT_LT(lit.scene.lamps.at(0).position.y_m, 0);
  EXPECT_GT(lit.scene.lamps.at(0).position.y_m, -0.1);
  EXPECT_EQ(lit.lamps.at(0).position, lit.scene.lamps.at(0).position);
}

TEST(LitScene, ALampDrawnWithinAWallComesOutWhereItsAzimuthPoints) {
  job::Job job = tests::bare_lot();
  tests::add_area(job, "wall", job::GroundKind::wall, tests::rectangle(0, 0, 10, 0.4), 0.5);
  tests::place_lamp(job, "S1", "path", {5, 0.3, 0.45}).azimuth_deg = 180;
  EXPECT_LT(lit_scene(job).scene.lamps.at(0).position.y_m, 0);
}

TEST(LitScene, ALampOnADeckStandsOnIt) {
  job::Job job = tests::bare_lot();
  tests::add_area(job, "deck", job::GroundKind::deck, tests::rectangle(0, 0, 4, 4), 0.5);
  tests::place_lamp(job, "S1", "path", {2, 2, 0.3});
  EXPECT_GT(lit_scene(job).scene.lamps.at(0).position.z_m, 0.5);
}

TEST(LitScene, AShieldLeavesNothingBeyondItsCutOff) {
  job::Job job = tests::bare_lot();
  tests::place_lamp(job, "F1", "bullet-60", {0, 0, 0.2}).tilt_deg = 90;
  tests::place_lamp(job, "F2", "bullet-60", {0, 0, 0.2}).tilt_deg = 90;
  job.luminaires[1].shield_cut_off_deg = 20;
  const LitJob lit = lit_scene(job);
  ASSERT_EQ(lit.scene.distributions.size(), 2u);
  const auto at = [&](std::size_t lamp, double gamma_deg) {
    return intensity_cd(lit.scene.distributions[lit.scene.lamps[lamp].distribution], 0, gamma_deg);
  };
  EXPECT_GT(at(0, 25), 0);
  EXPECT_EQ(at(1, 25), 0);
  EXPECT_EQ(at(1, 10), at(0, 10));
}

TEST(LitScene, LampsOfOneArticleShareItsTable) {
  job::Job job = tests::bare_lot();
  tests::place_lamp(job, "P1", "path", {0, 0, 0.5});
  tests::place_lamp(job, "P2", "path", {2, 0, 0.5});
  const LitJob lit = lit_scene(job);
  EXPECT_EQ(lit.scene.distributions.size(), 1u);
  EXPECT_NEAR(flux_lm(lit.scene.distributions[0]), 140, 1.4);
}

}  // namespace
}  // namespace duskwire::study
