// SPDX-License-Identifier: Apache-2.0
// The planner on gardens that somebody has wired by hand: the acceptance site with its two splices, and the demo. Its
// wiring is sound by the full solver and costs less to put in than theirs, by the same measure.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <iterator>
#include <string>

#include "estimate/installed.hpp"
#include "formats/job_reader.hpp"
#include "sites/stock.hpp"
#include "study/check.hpp"
#include "study/route.hpp"
#include "study/wired_jobs.hpp"

namespace duskwire::study {
namespace {

using geometry::Point2;

const Ruleset no_rules{"none", "", "", {}};

// The site as its sheet gives it, laid out: twenty metres of mulch along the house, then lawn.
job::Job placed_site() {
  job::Job job = tests::two_splice_site();
  job.transformers[0].position = Point2{0, 0};
  job::Area mulch;
  mulch.id = "mulch";
  mulch.kind = job::GroundKind::bed;
  mulch.outline = {{-2, -2}, {20, -2}, {20, 2}, {-2, 2}};
  job::Area lawn;
  lawn.id = "lawn";
  lawn.kind = job::GroundKind::lawn;
  lawn.outline = {{-20, -20}, {70, -20}, {70, 20}, {-20, 20}};
  job.plan.areas = {mulch, lawn};
  const Point2 first{30, 0};
  const Point2 second{45, 0};
  const auto at = [](Point2 from, double radius_m, double turn_deg) {
    const double turn = turn_deg * std::acos(-1.0) / 180;
    return geometry::Point3{from.x_m + radius_m * std::cos(turn), from.y_m + radius_m * std::sin(turn), 0};
  };
  for (std::size_t i = 0; i < 4; ++i) job.luminaires[i].position = at(first, 8, 45 + 90.0 * static_cast<double>(i));
  for (std::size_t i = 4; i < 7; ++i) job.luminaires[i].position = at(second, 5, 90.0 * static_cast<double>(i - 4));
  job.luminaires[7].position = at(second, 10, -90);
  return job;
}

// As its sheet has it wired, drawn on the same plan.
job::Job as_on_the_sheet() {
  job::Job job = placed_site();
  for (job::Cable& cable : job.cables) {
    const auto place = [&](const std::string& id) -> Point2 {
      if (id == "S1") return {30, 0};
      if (id == "S2") return {45, 0};
      for (const job::Luminaire& lamp : job.luminaires) {
        if (lamp.id == id) return {lamp.position->x_m, lamp.position->y_m};
      }
      return {0, 0};
    };
    cable.path = {place(cable.from), place(cable.to)};
  }
  return job;
}

RouteAnswer planned(const job::Job& job, const Ruleset& rules, const job::Catalogue& stock, std::uint64_t steps) {
  RouteRequest request;
  request.most_steps = steps;
  Router router(job, rules, stock, request);
  router.improve({});
  return router.answer();
}

TEST(RouteStories, TheTwoSpliceSiteFromNothing) {
  const job::Job sheet = as_on_the_sheet();
  job::Job bare = placed_site();
  bare.cables.clear();
  bare.joints.clear();
  for (job::Luminaire& lamp : bare.luminaires) lamp.joint.clear();
  const RouteAnswer answer = planned(bare, no_rules, tests::stock(), 400);
  ASSERT_TRUE(answer.job.has_value()) << (answer.obstacles.empty() ? "" : answer.obstacles[0].message);
  EXPECT_FALSE(answer.today.wired);
  EXPECT_TRUE(answer.planned.sound);
  EXPECT_EQ(answer.planned.outputs, 1u);
  EXPECT_GE(answer.planned.lowest_v, 10.0);
  const auto by_hand = estimate::installed_cost(sheet, tests::stock(), {});
  EXPECT_LT(answer.planned.cost.cost_minor, by_hand.cost_minor);
  EXPECT_LT(answer.planned.cost.trench_m, by_hand.trench_m);
  EXPECT_LE(answer.bound_minor, static_cast<double>(answer.planned.cost.cost_minor));
  ASSERT_FALSE(answer.runs.empty());
  for (const RouteRun& run : answer.runs) EXPECT_NE(run.sentence.find(run.output), std::string::npos);
}

TEST(RouteStories, TheNarrowWindowTakesTheHigherTap) {
  // 10.8 to 15 V: of 12, 13 and 14 V the sheet's own wiring holds it on 14 V alone.
  job::Job bare = placed_site();
  tests::set_window(bare, 10.8, 15);
  const RouteAnswer answer = planned(bare, no_rules, tests::stock(), 200);
  ASSERT_TRUE(answer.job.has_value());
  EXPECT_GE(answer.planned.lowest_v, 10.8);
  EXPECT_GE(answer.planned.least_room_v, 0);
}

TEST(RouteStories, TheDemoCostsLessThanAsItIsWired) {
  const job::Catalogue& stock = sites::stock();
  const Ruleset& us = sites::us_rules();
  std::ifstream file(DUSKWIRE_SOURCE_DIR "/examples/ostrey-garden-sound.json");
  const std::string text((std::istreambuf_iterator<char>(file)), {});
  const job::Job demo = formats::read_job(text).job.value();
  const RouteAnswer answer = planned(demo, us, stock, 300);
  ASSERT_TRUE(answer.job.has_value()) << answer.obstacles.size();
  EXPECT_TRUE(answer.today.sound);
  EXPECT_TRUE(answer.planned.sound);
  EXPECT_TRUE(check(*answer.job, us, stock, {.cures = false}).sound);
  // Lamps included; of the wiring alone it is about a third.
  EXPECT_LT(static_cast<double>(answer.planned.cost.cost_minor),
            0.9 * static_cast<double>(answer.today.cost.cost_minor));
}

}  // namespace
}  // namespace duskwire::study
