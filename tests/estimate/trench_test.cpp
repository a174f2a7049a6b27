// SPDX-License-Identifier: Apache-2.0
// Minutes per metre here: lawn 60/9, bed 1, drive 90, deck 3, through a sleeve 0.5 (InstallRates: common practice, no
// source). Lengths are worked out by hand; a trench is sampled each 0.1 m, hence the tolerance where one forks.
#include "estimate/trench.hpp"

#include <gtest/gtest.h>

#include "estimate/cable_length.hpp"
#include "estimate/jobs.hpp"

namespace duskwire::estimate {
namespace {

constexpr double lawn = 60 / 9.0;
constexpr double drive = 90;
constexpr double pull = 0.5;
constexpr double exact = 1e-9;

job::Area area(job::GroundKind kind, geometry::Polygon outline) {
  job::Area made;
  made.kind = kind;
  made.outline = std::move(outline);
  return made;
}

// Lawn from x = 0 to 20, a drive across it from x = 8 to 11.
job::Job lawn_with_drive() {
  job::Job job;
  job.plan.areas = {area(job::GroundKind::lawn, {{0, -5}, {20, -5}, {20, 5}, {0, 5}}),
                    area(job::GroundKind::drive, {{8, -5}, {11, -5}, {11, 5}, {8, 5}})};
  return job;
}

void lay(job::Job& job, geometry::Polyline path) {
  job::Cable cable;
  cable.id = "c" + std::to_string(job.cables.size());
  cable.path = std::move(path);
  job.cables.push_back(cable);
}

// A sleeve a little longer than the drive is wide.
void add_sleeve(job::Job& job) {
  job::Sleeve sleeve;
  sleeve.id = "under-drive";
  sleeve.path = {{7.5, 1}, {11.5, 1}};
  job.plan.sleeves = {sleeve};
}

TrenchWork work(const job::Job& job, const std::vector<std::string>& to_lay = {}) {
  return trench_work(job, {}, to_lay);
}

TEST(Trench, CostsByTheGroundThatThePathCrosses) {
  job::Job job = lawn_with_drive();
  lay(job, {{2, 1}, {16, 1}});
  EXPECT_NEAR(work(job).dug_m, 14, exact);
  EXPECT_NEAR(work(job).minutes, 11 * lawn + 3 * drive, exact);
}

TEST(Trench, IsDugByHandUnderATreeWhateverGrowsThere) {
  job::Job job = lawn_with_drive();
  job.plan.areas.push_back(area(job::GroundKind::root_zone, {{12, -5}, {14, -5}, {14, 5}, {12, 5}}));
  lay(job, {{2, 1}, {16, 1}});
  constexpr double by_hand = 20;
  // Two metres among roots, sampled each 0.1 m: a sample more or less at either edge.
  EXPECT_NEAR(work(job).minutes, 9 * lawn + 3 * drive + 2 * by_hand, 0.1 * (by_hand - lawn));
}

TEST(Trench, IsDugOnceForCablesThatLieInIt) {
  job::Job job = lawn_with_drive();
  lay(job, {{2, 1}, {7, 1}});
  lay(job, {{7, 1}, {2, 1}});
  lay(job, {{2.5, 1.1}, {6.5, 1.1}});
  EXPECT_NEAR(work(job).dug_m, 5, exact);
  EXPECT_NEAR(work(job).minutes, 5 * lawn, exact);
}

TEST(Trench, ASpadesWidthAwayIsATrenchOfItsOwn) {
  job::Job job = lawn_with_drive();
  lay(job, {{2, 1}, {7, 1}});
  lay(job, {{2, 1.2}, {7, 1.2}});
  EXPECT_NEAR(work(job).dug_m, 10, exact);
}

TEST(Trench, ABranchIsDugFromWhereItLeaves) {
  job::Job job = lawn_with_drive();
  lay(job, {{2, 1}, {7, 1}});
  lay(job, {{2, 1}, {5, 1}, {5, 4}});
  EXPECT_NEAR(work(job).dug_m, 5 + 3 - 0.15, 0.1);
}

TEST(Trench, ACableDoesNotShareWithItself) {
  job::Job job = lawn_with_drive();
  lay(job, {{2, 1}, {7, 1}, {7, 1.1}, {2, 1.1}});
  EXPECT_NEAR(work(job).dug_m, 10.1, exact);
}

TEST(Trench, ALengthThatIsGivenStretchesThePath) {
  job::Job job = lawn_with_drive();
  lay(job, {{2, 1}, {16, 1}});
  job.cables[0].length_m = 28;
  EXPECT_NEAR(work(job).dug_m, 28, exact);
  EXPECT_NEAR(work(job).minutes, 2 * (11 * lawn + 3 * drive), exact);
}

TEST(Trench, ThroughALaidSleeveEachCableIsPulled) {
  job::Job job = lawn_with_drive();
  add_sleeve(job);
  lay(job, {{2, 1}, {16, 1}});
  EXPECT_NEAR(work(job).dug_m, 10, 0.1);
  EXPECT_NEAR(work(job).minutes, 10 * lawn + 4 * pull, 0.1 * lawn);
  lay(job, {{2, 1}, {16, 1}});
  EXPECT_NEAR(work(job).dug_m, 10, 0.1) << "the trench on both sides is shared";
  EXPECT_NEAR(work(job).minutes, 10 * lawn + 8 * pull, 0.1 * lawn) << "the pull is not";
}

TEST(Trench, ASleeveThatIsStillToBeLaidCostsTheCrossingOnce) {
  job::Job job = lawn_with_drive();
  add_sleeve(job);
  lay(job, {{2, 1}, {16, 1}});
  lay(job, {{2, 1}, {16, 1}});
  job.cables[0].sleeve = job.cables[1].sleeve = "under-drive";
  EXPECT_NEAR(work(job, {"under-drive"}).dug_m, 14, exact);
  EXPECT_NEAR(work(job, {"under-drive"}).minutes, 11 * lawn + 3 * drive, exact);
}

TEST(Trench, ASleeveElsewhereDoesNotHelp) {
  job::Job job = lawn_with_drive();
  add_sleeve(job);
  lay(job, {{2, -2}, {16, -2}});
  EXPECT_NEAR(work(job).minutes, 11 * lawn + 3 * drive, exact);
}

TEST(Trench, WithoutAPathTheCablesOwnGroundCounts) {
  job::Job job;
  for (const auto ground : {std::optional(job::GroundKind::bed), std::optional<job::GroundKind>()}) {
    job::Cable cable;
    cable.length_m = 6;
    cable.ground = ground;
    job.cables.push_back(cable);
  }
  job.cables.emplace_back();  // no length, no path
  EXPECT_NEAR(work(job).dug_m, 12, exact);
  EXPECT_NEAR(work(job).minutes, 6 * 1 + 6 * lawn, exact);
}

TEST(Trench, WithoutAPathTheSleeveThatItNamesTakesItsLength) {
  job::Job job = lawn_with_drive();
  add_sleeve(job);
  job::Cable cable;
  cable.length_m = 10;
  cable.ground = job::GroundKind::lawn;
  cable.sleeve = "under-drive";
  job.cables.push_back(cable);
  EXPECT_NEAR(work(job).dug_m, 6, exact);
  EXPECT_NEAR(work(job).minutes, 6 * lawn + 4 * pull, exact);
  job.cables[0].length_m = 3;
  EXPECT_NEAR(work(job).minutes, 3 * pull, exact) << "no more than the cable is long";
}

TEST(Trench, WhatIsFastenedTakesTimeAndIsNotDug) {
  job::Job job;
  job.plan.areas = {area(job::GroundKind::deck, {{0, -5}, {20, -5}, {20, 5}, {0, 5}})};
  lay(job, {{2, 1}, {7, 1}});
  EXPECT_EQ(work(job).dug_m, 0);
  EXPECT_NEAR(work(job).minutes, 5 * 3, exact);
}

TEST(Trench, APathOfKilometresIsMeasuredWhole) {
  job::Job job;
  lay(job, {{-500'000, 0}, {500'000, 0}});
  EXPECT_NEAR(work(job).dug_m, 1e6, 1e-3);
}

TEST(Trench, SaysWhatEachCableMeetsByGround) {
  job::Job job = lawn_with_drive();
  add_sleeve(job);
  lay(job, {{2, 1}, {16, 1}});
  lay(job, {{2, 1}, {6, 1}});
  const std::vector<TrenchStretch> met = work(job).stretches;
  ASSERT_EQ(met.size(), 3u);
  EXPECT_EQ(met[0].cable, "c0");
  EXPECT_EQ(met[0].ground, job::GroundKind::lawn);
  EXPECT_NEAR(met[0].dug_m, 10, exact) << "14 m less the sleeve of 4 m";
  EXPECT_NEAR(met[0].pulled_m, 1, 0.11) << "in the lawn, half a metre at each end of the drive";
  EXPECT_EQ(met[1].ground, job::GroundKind::drive);
  EXPECT_NEAR(met[1].pulled_m, 3, exact);
  EXPECT_EQ(met[1].dug_m, 0);
  EXPECT_EQ(met[2].cable, "c1");
  EXPECT_NEAR(met[2].shared_m, 4, exact) << "the first cable has opened that trench";
  EXPECT_EQ(met[2].minutes, 0);
}

TEST(Trench, TheStretchesAddUpToTheWork) {
  for (std::uint32_t seed = 0; seed < 100; ++seed) {
    const job::Job job = tests::random_job(seed);
    const TrenchWork whole = work(job);
    double dug_m = 0;
    double minutes = 0;
    double met_m = 0;
    for (const TrenchStretch& stretch : whole.stretches) {
      dug_m += stretch.dug_m;
      minutes += stretch.minutes;
      met_m += stretch.dug_m + stretch.shared_m + stretch.pulled_m + stretch.fastened_m;
    }
    double routes_m = 0;
    for (const job::Cable& cable : job.cables) routes_m += route_length_m(cable).value_or(0);
    EXPECT_NEAR(dug_m, whole.dug_m, 1e-6) << seed;
    EXPECT_NEAR(minutes, whole.minutes, 1e-6) << seed;
    EXPECT_NEAR(met_m, routes_m, 1e-6) << seed;
  }
}

TEST(Trench, EveryCableOnceMoreInTheSameGroundAddsNothing) {
  for (std::uint32_t seed = 0; seed < 100; ++seed) {
    job::Job job = tests::random_job(seed);
    std::erase_if(job.cables, [](const job::Cable& cable) { return cable.path.size() < 2; });
    double routes_m = 0;
    for (job::Cable& cable : job.cables) {
      cable.length_m.reset();
      routes_m += geometry::distance_m(cable.path[0], cable.path[1]);
    }
    const TrenchWork once = work(job);
    EXPECT_LE(once.dug_m, routes_m + exact) << seed;
    const std::vector<job::Cable> cables = job.cables;
    job.cables.insert(job.cables.end(), cables.begin(), cables.end());
    EXPECT_NEAR(work(job).dug_m, once.dug_m, exact) << seed;
    EXPECT_NEAR(work(job).minutes, once.minutes, exact) << seed;
  }
}

}  // namespace
}  // namespace duskwire::estimate
