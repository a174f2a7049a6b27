// SPDX-License-Identifier: Apache-2.0
// The planner on seeded gardens: always sound, never dearer than a contractor's habits, the same again for the same
// seed. And gardens where nothing fits, which it has to explain.
#include <gtest/gtest.h>

#include <algorithm>
#include <cstddef>
#include <iterator>

#include "job/plan_ground.hpp"
#include "sanitizers.hpp"
#include "sites/baselines.hpp"
#include "sites/lots.hpp"
#include "sites/planned.hpp"
#include "sites/stock.hpp"
#include "study/check.hpp"

namespace duskwire::study {
namespace {

using geometry::Point2;

struct Garden {
  std::uint32_t lamps;
  std::uint64_t seed;
};

#ifdef DUSKWIRE_UNDER_SANITIZERS
constexpr Garden gardens[] = {{10, 1}, {14, 2}};
constexpr Garden contested[] = {{10, 1}};
constexpr std::uint64_t steps = 40;
#else
constexpr Garden gardens[] = {{10, 1}, {10, 2}, {14, 3}, {20, 4}, {20, 5}, {30, 6}, {40, 7}, {60, 8}};
constexpr Garden contested[] = {{10, 1}, {10, 2}, {14, 3}, {20, 4}, {40, 7}};
constexpr std::uint64_t steps = 400;
#endif

RouteRequest for_steps(std::uint64_t most_steps) {
  RouteRequest request;
  request.most_steps = most_steps;
  return request;
}

// By the full solver, not by the planner's word.
void expect_sound(const job::Job& job) {
  const Report report = check(job, sites::us_rules(), sites::stock(), {.cures = false});
  EXPECT_TRUE(report.sound);
  EXPECT_EQ(report.lamps.size(), job.luminaires.size());
  for (const LampReport& lamp : report.lamps) {
    EXPECT_NE(lamp.output, "") << lamp.id;
    EXPECT_GE(lamp.worst_low_v, lamp.window_min_v) << lamp.id;
    EXPECT_LE(lamp.worst_high_v, lamp.window_max_v) << lamp.id;
  }
}

// By the plan, not by the planner's graph: nobody digs up paving, a deck or a drive to get at a joint.
void expect_joints_can_be_reached(const job::Job& job) {
  constexpr job::GroundKind open[] = {job::GroundKind::bed, job::GroundKind::lawn, job::GroundKind::gravel,
                                      job::GroundKind::root_zone};
  const job::PlanGround ground(job.plan);
  for (const job::Joint& joint : job.joints) {
    ASSERT_TRUE(joint.position.has_value()) << joint.id;
    const auto kind = ground.at(*joint.position);
    EXPECT_TRUE(!kind || std::find(std::begin(open), std::end(open), *kind) != std::end(open)) << joint.id;
  }
}

// Each lamp is on one run, and each run says why it is so.
void expect_runs_explained(const RouteAnswer& answer) {
  std::size_t lamps = 0;
  for (const RouteRun& run : answer.runs) {
    lamps += run.lamps.size();
    EXPECT_NE(run.sentence.find(run.output), std::string::npos) << run.sentence;
    EXPECT_EQ(run.sentence.back(), '.') << run.sentence;
  }
  EXPECT_EQ(lamps, answer.job->luminaires.size());
}

TEST(RouteSites, EveryLampIsFedWithinItsWindowAtEveryCorner) {
  for (const Garden garden : gardens) {
    SCOPED_TRACE(testing::Message() << garden.lamps << " lamps, seed " << garden.seed);
    const RouteAnswer answer =
        sites::planned(sites::lot({garden.lamps, garden.seed}, sites::stock()), for_steps(steps));
    ASSERT_TRUE(answer.job.has_value());
    EXPECT_TRUE(answer.planned.sound);
    expect_sound(*answer.job);
    expect_joints_can_be_reached(*answer.job);
    expect_runs_explained(answer);
  }
}

TEST(RouteSites, NoHabitOfAContractorIsCheaper) {
  const estimate::InstallRates rates;
  for (const Garden garden : contested) {
    SCOPED_TRACE(testing::Message() << garden.lamps << " lamps, seed " << garden.seed);
    const job::Job site = sites::lot({garden.lamps, garden.seed}, sites::stock());
    const RouteAnswer answer = sites::planned(site, for_steps(steps));
    ASSERT_TRUE(answer.job.has_value());
    int tried = 0;
    for (const sites::Habit habit : sites::habits) {
      const auto other = sites::baseline(habit, site, sites::us_rules(), sites::stock(), rates);
      if (!other) continue;
      expect_sound(other->job);
      EXPECT_LE(answer.planned.cost.cost_minor, other->cost.cost_minor) << sites::habit_name(habit);
      ++tried;
    }
    EXPECT_GE(tried, 2);
  }
}

TEST(RouteSites, TheSameSeedGivesTheSameWiring) {
  const job::Job site = sites::lot({14, 2}, sites::stock());
  const RouteAnswer once = sites::planned(site, for_steps(steps / 4));
  const RouteAnswer again = sites::planned(site, for_steps(steps / 4));
  ASSERT_TRUE(once.job.has_value());
  EXPECT_EQ(once.job, again.job);
  EXPECT_EQ(once.planned.cost.cost_minor, again.planned.cost.cost_minor);
}

TEST(RouteSites, MoreStepsNeverCostMore) {
  const job::Job site = sites::lot({14, 2}, sites::stock());
  Router router(site, sites::us_rules(), sites::stock(), for_steps(steps));
  double before = 0;
  for (int part = 0; part < 4; ++part) {
    router.improve([asked = 0]() mutable { return ++asked < 30; });
    const double now = router.progress().cost_minor;
    EXPECT_GT(now, 0);
    if (part > 0) {
      EXPECT_LE(now, before);
    }
    before = now;
  }
}

job::Area area(const std::string& id, job::GroundKind kind, double left_m, double right_m) {
  return {id, "", kind, {{left_m, 0}, {right_m, 0}, {right_m, 20}, {left_m, 20}}, 0, {}, {}, {}};
}

// A lawn on both sides of a drive that reaches from fence to fence; the transformer on the left, a lamp on the right.
job::Job parted_garden() {
  job::Job job = sites::open_lawn({1, 1}, sites::stock());
  job.plan.areas = {area("left", job::GroundKind::lawn, 0, 10), area("drive", job::GroundKind::drive, 10, 14),
                    area("right", job::GroundKind::lawn, 14, 30)};
  job.plan.property_line = {{0, 0}, {30, 0}, {30, 20}, {0, 20}};
  job.transformers[0].position = Point2{1, 10};
  job.luminaires[0].position = geometry::Point3{20, 10, 0};
  return job;
}

bool tells_of(const std::vector<RouteObstacle>& obstacles, const std::string& word) {
  return std::any_of(obstacles.begin(), obstacles.end(),
                     [&](const RouteObstacle& obstacle) { return obstacle.message.find(word) != std::string::npos; });
}

TEST(RouteSites, ADriveWithoutASleeveIsNamedAsTheObstacle) {
  job::Job job = parted_garden();
  const RouteAnswer answer = sites::planned(job, for_steps(20));
  EXPECT_FALSE(answer.job.has_value());
  EXPECT_TRUE(tells_of(answer.obstacles, "drive"));
  EXPECT_TRUE(tells_of(answer.obstacles, job.luminaires[0].id));
  for (const RouteObstacle& obstacle : answer.obstacles) EXPECT_NE(obstacle.cure, "") << obstacle.message;

  job.plan.sleeves.push_back({"sleeve", {{9.7, 8}, {14.3, 8}}, 50, 0.5, {}, {}});
  const RouteAnswer with_sleeve = sites::planned(job, for_steps(20));
  ASSERT_TRUE(with_sleeve.job.has_value());
  expect_sound(*with_sleeve.job);
  EXPECT_TRUE(std::any_of(with_sleeve.job->cables.begin(), with_sleeve.job->cables.end(),
                          [](const job::Cable& cable) { return cable.sleeve == "sleeve"; }));
}

TEST(RouteSites, ALampTooFarForTheThickestCableIsNamed) {
  job::Job job = sites::open_lawn({1, 1}, sites::stock());
  job.plan.areas.clear();
  job.plan.areas.push_back(
      {"lawn", "", job::GroundKind::lawn, {{0, 0}, {2000, 0}, {2000, 20}, {0, 20}}, 0, {}, {}, {}});
  job.transformers[0].position = Point2{1, 10};
  job.luminaires[0].position = geometry::Point3{1900, 10, 0};
  const RouteAnswer answer = sites::planned(job, for_steps(20));
  EXPECT_FALSE(answer.job.has_value());
  EXPECT_TRUE(tells_of(answer.obstacles, job.luminaires[0].id));
  for (const RouteObstacle& obstacle : answer.obstacles) EXPECT_NE(obstacle.cure, "") << obstacle.message;
}

TEST(RouteSites, NoPlaceForATransformerIsNamed) {
  job::Job job = sites::open_lawn({3, 1}, sites::stock());
  job.transformers.clear();
  job.plan.receptacles.clear();
  const RouteAnswer answer = sites::planned(job, for_steps(20));
  EXPECT_FALSE(answer.job.has_value());
  EXPECT_TRUE(tells_of(answer.obstacles, "no place for a transformer"));
}

}  // namespace
}  // namespace duskwire::study
