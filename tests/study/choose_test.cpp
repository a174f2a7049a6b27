// SPDX-License-Identifier: Apache-2.0
// Acceptance examples of the trade on the stock catalogue: a tree's beam and lumens, a walk without a runway.
#include "study/choose.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "sites/stock.hpp"
#include "study/levels.hpp"
#include "study/lit_jobs.hpp"
#include "study/lit_lamps.hpp"
#include "study/walk_lights.hpp"

namespace duskwire::study {
namespace {

const job::Catalogue& stock() {
  static const job::Catalogue catalogue = sites::stock();
  return catalogue;
}

// Crown 5 m wide from 2 to 7.5 m, seen from the south.
job::Job one_tree() {
  job::Job job = tests::bare_lot();
  job.catalogue.luminaires.clear();
  job::Tree tree;
  tree.id = "oak";
  tree.crown_width_m = 5;
  tree.crown_base_m = 2;
  tree.height_m = 7.5;
  job.plan.trees = {tree};
  return job;
}

// A straight walk of 14.0 by 1.2 m.
job::Job one_walk() {
  job::Job job = tests::bare_lot();
  job.catalogue.luminaires.clear();
  tests::add_area(job, "walk", job::GroundKind::paving, tests::rectangle(0, -0.6, 14, 0.6)).name = "Walk";
  return job;
}

ChooseRequest for_oak() {
  ChooseRequest request;
  request.tree = "oak";
  request.setback_m = 1.5;
  return request;
}

ChooseRequest for_walk() {
  ChooseRequest request;
  request.area = "walk";
  request.longest_m = 2.44;
  request.pool_m = 2.6;
  request.risers_m = {9};
  return request;
}

Choice chosen(const job::Job& job, const ChooseRequest& request) {
  const Result<Choice> found = choose(job, request, stock(), {});
  EXPECT_TRUE(found.ok()) << (found.ok() ? "" : found.error().message);
  return found.ok() ? found.value() : Choice{};
}

TEST(ChooseVerb, ATreeNeedsThisBeamFromThisFarAtThisAim) {
  const Choice choice = chosen(one_tree(), for_oak());
  EXPECT_NEAR(choice.need.distance_m.value(), 4.98, 0.05);
  EXPECT_NEAR(choice.need.beam_deg.value(), 53, 1);
  EXPECT_NEAR(choice.need.tilt_deg.value(), 72.5, 0.1);
}

TEST(ChooseVerb, ATreeIsOfferedOneWideBeamOrTwoNarrowerOnes) {
  const Choice choice = chosen(one_tree(), for_oak());
  std::vector<std::pair<std::uint32_t, double>> offers;
  for (const ChoiceOption& option : choice.options) {
    if (option.fits && option.kind == job::LuminaireKind::bullet) offers.emplace_back(option.count, option.beam_deg);
  }
  std::sort(offers.begin(), offers.end());
  const std::vector<std::pair<std::uint32_t, double>> expected = {{1, 60}, {2, 36}};
  EXPECT_EQ(offers, expected);
  EXPECT_NE(choice.sentence.find("53°"), std::string::npos) << choice.sentence;
}

TEST(ChooseVerb, ATightBeamIsFlaggedWithItsSpot) {
  ChooseRequest request = for_oak();
  request.item = "bullet-6w-15";
  const Choice choice = chosen(one_tree(), request);
  ASSERT_EQ(choice.options.size(), 1u);
  EXPECT_FALSE(choice.options[0].fits);
  ASSERT_FALSE(choice.options[0].warnings.empty());
  EXPECT_EQ(choice.options[0].warnings[0], "1.3 m spot on a 5 m crown");
}

// 5 m are 16.4 ft, a spot of 1.31 m 4.3 ft.
TEST(ChooseVerb, SentencesSpeakTheJobsUnits) {
  job::Job job = one_tree();
  job.site.units = job::DisplayUnits::us;
  ChooseRequest request = for_oak();
  request.item = "bullet-6w-15";
  const Choice tight = chosen(job, request);
  EXPECT_EQ(tight.options.at(0).warnings.at(0), "4.3 ft spot on a 16.4 ft crown");
  EXPECT_EQ(tight.sentence.find("From 4.9 ft beside the trunk"), 0u) << tight.sentence;
  job::Job walk = one_walk();
  walk.site.units = job::DisplayUnits::us;
  const Choice along = chosen(walk, for_walk());
  for (const std::string& words : {along.options.at(0).reason, along.remarks.at(0)}) {
    EXPECT_NE(words.find(" ft"), std::string::npos) << words;
    EXPECT_EQ(words.find(" m "), std::string::npos) << words;
  }
}

TEST(ChooseVerb, TreeLampsStandAtTheSetbackAndLookAtTheMiddleOfTheCrown) {
  const job::Job job = one_tree();
  for (const ChoiceOption& option : chosen(job, for_oak()).options) {
    for (const ChosenLamp& lamp : option.lamps) {
      EXPECT_NEAR(std::hypot(lamp.position.x_m, lamp.position.y_m), 1.5, 1e-9);
      const geometry::Vec3 to_middle = unit(geometry::Point3{0, 0, 4.75} - lamp.position);
      EXPECT_NEAR(dot(way_of(job.plan, lamp.azimuth_deg, lamp.tilt_deg), to_middle), 1, 1e-9);
      EXPECT_LT(lamp.position.y_m, 1.0);  // on the side that is looked at
    }
  }
}

TEST(ChooseVerb, AWalkIsLitEvenlyOnAlternatingSidesWithAStepLightAtItsRisers) {
  const Choice choice = chosen(one_walk(), for_walk());
  ASSERT_FALSE(choice.options.empty());
  const ChoiceOption& best = choice.options.front();
  EXPECT_EQ(best.count, 6u);
  std::vector<ChosenLamp> path;
  std::vector<ChosenLamp> steps;
  for (const ChosenLamp& lamp : best.lamps) (lamp.item == best.item ? path : steps).push_back(lamp);
  ASSERT_EQ(path.size(), 6u);
  for (std::size_t i = 0; i < path.size(); ++i) {
    EXPECT_NEAR(path[i].position.x_m, (static_cast<double>(i) + 0.5) * 14 / 6, 1e-6);
    if (i > 0) {
      EXPECT_LT(path[i].position.y_m * path[i - 1].position.y_m, 0);
      EXPECT_LE(path[i].position.x_m - path[i - 1].position.x_m, 2.44);
    }
  }
  ASSERT_EQ(steps.size(), 1u);
  EXPECT_NEAR(steps[0].position.x_m, 9, 1e-6);
  EXPECT_NE(choice.remarks.at(0).find("0.83 m away"), std::string::npos) << choice.remarks.at(0);
}

TEST(ChooseVerb, TheSameLightsInFacingPairsAreReportedAsARunway) {
  job::Job job = one_walk();
  job.catalogue = stock();
  const ChoiceOption best = chosen(one_walk(), for_walk()).options.front();
  for (const ChosenLamp& lamp : best.lamps) {
    tests::place_lamp(job, "P" + std::to_string(job.luminaires.size()), lamp.item, lamp.position);
  }
  EXPECT_TRUE(runway_findings(job).empty());
  for (std::size_t i = 1; i < job.luminaires.size(); i += 2) {
    job.luminaires[i].position->x_m = job.luminaires[i - 1].position->x_m;
  }
  const Findings findings = runway_findings(job);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].id, "light/runway");
  EXPECT_EQ(findings[0].subject, "walk");
  EXPECT_NE(findings[0].message.find("runway"), std::string::npos);
}

TEST(ChooseVerb, StepsOfThePlanAreFoundAlongTheWalk) {
  job::Job job = one_walk();
  job::Area& steps = tests::add_area(job, "steps", job::GroundKind::steps, tests::rectangle(8.5, -0.6, 9.5, 0.6), 0.45);
  steps.riser_count = 3;
  steps.ascent_deg = 90;
  const std::vector<double> risers = risers_along(job.plan, *geometry::strip_of(job.plan.areas[0].outline));
  ASSERT_EQ(risers.size(), 1u);
  EXPECT_NEAR(risers[0], 8.83, 0.01);  // the middle one of risers at 8.5, 8.83, 9.17 m
}

TEST(ChooseVerb, AWallIsWashedFromAThirdOfItsHeightAndItsLightIsComputed) {
  job::Job job = tests::bare_lot();
  tests::add_area(job, "house", job::GroundKind::building, tests::rectangle(0, 0, 8, 5), 3);
  ChooseRequest request;
  request.face = "house/0";
  const Choice choice = chosen(job, request);
  EXPECT_NEAR(choice.need.setback_m.value(), 1, 1e-9);
  EXPECT_EQ(choice.need.count.value(), 6u);
  ASSERT_FALSE(choice.options.empty());
  EXPECT_TRUE(choice.options.front().fits) << choice.sentence;
  EXPECT_GT(choice.options.front().average_lx, 20);
  for (const ChosenLamp& lamp : choice.options.front().lamps) {
    EXPECT_NEAR(lamp.position.y_m, -1, 1e-9);
    EXPECT_GT(lamp.tilt_deg, 0);
  }
}

TEST(ChooseVerb, EachRiserGetsALight) {
  job::Job job = tests::bare_lot();
  job::Area& steps = tests::add_area(job, "steps", job::GroundKind::steps, tests::rectangle(0, 0, 1.8, 1.2), 0.51);
  steps.riser_count = 3;
  steps.ascent_deg = 360;
  ChooseRequest request;
  request.area = "steps";
  const Choice choice = chosen(job, request);
  ASSERT_FALSE(choice.options.empty());
  EXPECT_EQ(choice.options.front().count, 6u);  // two in each of three risers of 1.8 m
  EXPECT_GT(choice.options.front().average_lx, 0);
}

TEST(ChooseVerb, WhatCannotBeLitIsRefusedInWords) {
  const job::Job job = one_walk();
  ChooseRequest request;
  EXPECT_EQ(choose(job, request, stock(), {}).error().code, ErrorCode::invalid);
  request.tree = "elm";
  EXPECT_EQ(choose(job, request, stock(), {}).error().code, ErrorCode::not_found);
  request.tree.clear();
  request.face = "walk/9";
  EXPECT_EQ(choose(job, request, stock(), {}).error().code, ErrorCode::not_found);
  request = for_walk();
  request.item = "no-such-lamp";
  EXPECT_EQ(choose(job, request, stock(), {}).error().code, ErrorCode::not_found);
}

}  // namespace
}  // namespace duskwire::study
