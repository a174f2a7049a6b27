// SPDX-License-Identifier: Apache-2.0
#include "study/lit_lamps.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "study/check.hpp"
#include "study/lit_jobs.hpp"
#include "study/wired_jobs.hpp"

namespace duskwire::study {
namespace {

using geometry::Vec3;

void expect_way(Vec3 way, Vec3 expected) {
  EXPECT_NEAR(way.x, expected.x, 1e-12);
  EXPECT_NEAR(way.y, expected.y, 1e-12);
  EXPECT_NEAR(way.z, expected.z, 1e-12);
}

bool has(const Findings& findings, const std::string& id) {
  return std::any_of(findings.begin(), findings.end(), [&](const Finding& finding) { return finding.id == id; });
}

TEST(LitLamps, AzimuthTurnsClockwiseFromNorthAndTiltLeadsUp) {
  job::Plan plan;
  expect_way(way_of(plan, 0, 0), {0, 1, 0});
  expect_way(way_of(plan, 90, 0), {1, 0, 0});
  expect_way(way_of(plan, 0, 90), {0, 0, 1});
  expect_way(way_of(plan, 180, -30), {0, -std::sqrt(0.75), -0.5});
}

TEST(LitLamps, NorthOfThePlanTurnsEveryAzimuth) {
  job::Plan plan;
  plan.north_deg = 0;  // north along +x, so east is -y
  expect_way(way_of(plan, 0, 0), {1, 0, 0});
  expect_way(way_of(plan, 90, 0), {0, -1, 0});
}

TEST(LitLamps, AimOfAWayGivesTheSameWayAgain) {
  job::Plan plan;
  plan.north_deg = 37;
  for (const double azimuth_deg : {0.0, 45.0, 170.0, 300.0}) {
    for (const double tilt_deg : {-80.0, 0.0, 33.0, 72.5}) {
      const Aim aim = aim_of(plan, way_of(plan, azimuth_deg, tilt_deg));
      EXPECT_NEAR(aim.azimuth_deg, azimuth_deg, 1e-9);
      EXPECT_NEAR(aim.tilt_deg, tilt_deg, 1e-9);
    }
  }
}

TEST(LitLamps, AnAimedLampLooksAlongItsAimWithItsZeroOnTheUpperSide) {
  job::Job job = tests::bare_lot();
  job::Luminaire& lamp = tests::place_lamp(job, "F1", "bullet-36", {1, 2, 0.2});
  lamp.azimuth_deg = 90;
  lamp.tilt_deg = 60;
  const LitLamps lit = lit_lamps(job);
  ASSERT_EQ(lit.lamps.size(), 1u);
  expect_way(lit.lamps[0].aim, {0.5, 0, std::sqrt(0.75)});
  expect_way(lit.lamps[0].zero, {-std::sqrt(0.75), 0, 0.5});
  EXPECT_FALSE(lit.lamps[0].aim_assumed);
}

TEST(LitLamps, AnUprightLampLooksDownWithItsZeroAtTheAzimuth) {
  job::Job job = tests::bare_lot();
  tests::place_lamp(job, "P1", "path", {0, 0, 0.5}).azimuth_deg = 90;
  const LitLamps lit = lit_lamps(job);
  expect_way(lit.lamps.at(0).aim, {0, 0, -1});
  expect_way(lit.lamps.at(0).zero, {1, 0, 0});
  EXPECT_FALSE(has(lit.findings, "light/aim-not-set"));
}

TEST(LitLamps, AnAimThatIsNotSetIsToldAndTakenByTheKind) {
  job::Job job = tests::bare_lot();
  tests::add_area(job, "house", job::GroundKind::building, tests::rectangle(0, 0, 10, 8), 6);
  tests::place_lamp(job, "F1", "bullet-36", {5, -3, 0.2});
  tests::place_lamp(job, "F2", "downlight-60", {5, -3, 7});
  tests::place_lamp(job, "F3", "wash-90", {12, 4, 0.2});
  const LitLamps lit = lit_lamps(job);
  ASSERT_EQ(lit.lamps.size(), 3u);
  expect_way(lit.lamps[0].aim, {0, 0, 1});
  expect_way(lit.lamps[1].aim, {0, 0, -1});
  expect_way(lit.lamps[2].aim, {-std::sqrt(0.5), 0, std::sqrt(0.5)});  // at the east wall of the house
  const auto told = std::count_if(lit.findings.begin(), lit.findings.end(),
                                  [](const Finding& finding) { return finding.id == "light/aim-not-set"; });
  EXPECT_EQ(told, 3);
}

TEST(LitLamps, ShareIsTheLightThatTheCheckReports) {
  job::Job job = tests::two_splice_site();
  job.transformers[0].outputs[0].tap_v = 12;
  job.site.mains_v = 100;
  for (job::LuminaireItem& item : job.catalogue.luminaires) item.v_regulation_min = 11.75;
  for (job::Luminaire& lamp : job.luminaires) lamp.position = geometry::Point3{0, 0, 1};
  job.luminaires[1].dim_pct = 40;
  const Report report = check(job, {}, job.catalogue, {.cures = false});
  const LitLamps lit = lit_lamps(job);
  ASSERT_EQ(lit.lamps.size(), report.lamps.size());
  bool some_dim = false;
  for (std::size_t i = 0; i < lit.lamps.size(); ++i) {
    EXPECT_DOUBLE_EQ(lit.lamps[i].share, report.lamps[i].light);
    some_dim = some_dim || lit.lamps[i].share < lit.lamps[i].dim_share;
  }
  EXPECT_TRUE(some_dim);
  EXPECT_DOUBLE_EQ(lit.lamps[1].dim_share, 0.4);
  EXPECT_LE(lit.lamps[1].share, 0.4);
}

TEST(LitLamps, WithoutVoltsTheShareIsTheDimming) {
  job::Job job = tests::two_splice_site();
  for (job::Luminaire& lamp : job.luminaires) lamp.position = geometry::Point3{0, 0, 1};
  job.luminaires[0].dim_pct = 25;
  const LitLamps lit = lit_lamps(job, {.volts = false});
  EXPECT_DOUBLE_EQ(lit.lamps[0].share, 0.25);
  EXPECT_DOUBLE_EQ(lit.lamps[1].share, 1);
}

TEST(LitLamps, ALampThatNothingFeedsIsTakenAtRatedVoltsAndTold) {
  job::Job job = tests::bare_lot();
  tests::place_lamp(job, "P1", "path", {0, 0, 0.5}).dim_pct = 50;
  const LitLamps lit = lit_lamps(job);
  EXPECT_DOUBLE_EQ(lit.lamps.at(0).share, 0.5);
  EXPECT_TRUE(has(lit.findings, "light/not-wired"));
}

TEST(LitLamps, WhatHasNoPlaceOrNoArticleIsLeftOutAndTold) {
  job::Job job = tests::bare_lot();
  tests::place_lamp(job, "P1", "path", {}).position.reset();
  tests::place_lamp(job, "P2", "gone", {0, 0, 0});
  const LitLamps lit = lit_lamps(job);
  EXPECT_TRUE(lit.lamps.empty());
  EXPECT_TRUE(has(lit.findings, "light/no-place"));
  EXPECT_TRUE(has(lit.findings, "light/no-article"));
}

}  // namespace
}  // namespace duskwire::study
