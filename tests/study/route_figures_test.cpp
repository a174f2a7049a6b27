// SPDX-License-Identifier: Apache-2.0
#include "study/route_figures.hpp"

#include <gtest/gtest.h>

#include "study/check.hpp"
#include "study/wired_jobs.hpp"

namespace duskwire::study {
namespace {

RouteFigures figures(const job::Job& job) { return figures_of(job, Ruleset{}, tests::stock(), {}); }

// Acceptance example of the tap by corners: on tap 13 the far lamp F8 sees 10.75 V with low mains, and F1, the nearest,
// has 15 V - 1.05 x 13 V and more above it.
TEST(RouteFigures, OfTheTwoSpliceSiteAreThoseOfItsWorstCorner) {
  const RouteFigures site = figures(tests::two_splice_site());
  EXPECT_NEAR(site.lowest_v, 10.75, 0.03);
  EXPECT_EQ(site.lowest_lamp, "F8");
  EXPECT_NEAR(site.least_room_v, 0.75, 0.03);
  EXPECT_EQ(site.least_room_lamp, "F8");
  EXPECT_TRUE(site.wired);
  EXPECT_TRUE(site.sound);
  EXPECT_EQ(site.errors, 0u);
  EXPECT_EQ(site.transformers, 1u);
  EXPECT_EQ(site.outputs, 1u);
  EXPECT_EQ(site.cost.joints, 2u);
  EXPECT_NEAR(site.cost.cable_m, 102, 1e-9);  // no slack in that job
  EXPECT_GT(site.load_va, 46.7);              // nominal, same example; low mains draws more
  EXPECT_LT(site.load_va, 46.7 * 1.05);
  EXPECT_GT(site.load_margin, 1);
}

// The same example: tap 12 leaves F8 with 9.62 V.
TEST(RouteFigures, BelowTheWindowTheRoomIsNegativeAndTheWiringUnsound) {
  job::Job job = tests::two_splice_site();
  job.transformers[0].outputs[0].tap_v = 12;
  const RouteFigures site = figures(job);
  EXPECT_NEAR(site.least_room_v, 9.62 - 10, 0.03);
  EXPECT_FALSE(site.sound);
  EXPECT_GT(site.errors, 0u);
}

TEST(RouteFigures, TheUpperEdgeOfTheWindowCountsToo) {
  job::Job job = tests::two_splice_site();
  tests::set_window(job, 9, 12.6);
  const RouteFigures site = figures(job);
  const Report report = check(job, {}, tests::stock(), {.cures = false});
  double highest_v = 0;
  for (const LampReport& lamp : report.lamps) highest_v = std::max(highest_v, lamp.worst_high_v);
  EXPECT_NEAR(site.least_room_v, 12.6 - highest_v, 1e-9);
  EXPECT_NEAR(highest_v, 12.53, 0.03);  // the same example
}

TEST(RouteFigures, ALampThatNothingFeedsIsNotWiredAndNotTheLowest) {
  job::Job job = tests::two_splice_site();
  tests::add_lamp(job, "alone", "path-3va");
  const RouteFigures site = figures(job);
  EXPECT_FALSE(site.wired);
  EXPECT_FALSE(site.sound);
  EXPECT_EQ(site.lowest_lamp, "F8");
  EXPECT_NEAR(site.lowest_v, 10.75, 0.03);
}

TEST(RouteFigures, OfLampsWithoutWiringSayThatThereIsNone) {
  job::Job job = tests::two_splice_site();
  job.cables.clear();
  job.joints.clear();
  const RouteFigures site = figures(job);
  EXPECT_FALSE(site.wired);
  EXPECT_FALSE(site.sound);
  EXPECT_EQ(site.lowest_v, 0);
  EXPECT_EQ(site.lowest_lamp, "");
  EXPECT_EQ(site.outputs, 0u);
  EXPECT_EQ(site.cost.trench_m, 0);
}

}  // namespace
}  // namespace duskwire::study
