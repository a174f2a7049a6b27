// SPDX-License-Identifier: Apache-2.0
#include "study/step_flight.hpp"

#include <gtest/gtest.h>

#include "geometry/polygon.hpp"
#include "study/lit_jobs.hpp"

namespace duskwire::study {
namespace {

TEST(StepFlight, TreadsFollowTheAscentWithTheTopOneLevelWithTheLanding) {
  job::Job job = tests::bare_lot();
  job::Area& steps = tests::add_area(job, "steps", job::GroundKind::steps, tests::rectangle(0, 0, 2, 1.2), 0.51);
  steps.riser_count = 3;
  steps.ascent_deg = 0;
  const StepFlight flight = step_flight(job.plan, steps);
  ASSERT_EQ(flight.treads.size(), 3u);
  EXPECT_FALSE(flight.assumed);
  EXPECT_NEAR(flight.treads[0].height_m, 0.17, 1e-12);
  EXPECT_NEAR(flight.treads[2].height_m, 0.51, 1e-12);
  EXPECT_NEAR(area_m2(flight.treads[1].outline), 0.8, 1e-9);
  EXPECT_NEAR(flight.treads[1].nosing.y_m, 0.4, 1e-9);
  EXPECT_NEAR(flight.height_at_m({1, 0.6}), 0.34, 1e-12);
  EXPECT_EQ(flight.height_at_m({1, -0.1}), 0);
}

TEST(StepFlight, WhatIsLeftOpenFollowsTheDeckThatAdjoins) {
  job::Job job = tests::bare_lot();
  tests::add_area(job, "porch", job::GroundKind::deck, tests::rectangle(-2, -3, 0, 3), 0.5);
  const job::Area steps = tests::add_area(job, "steps", job::GroundKind::steps, tests::rectangle(0, -1, 1.2, 1), 0.5);
  const StepFlight flight = step_flight(job.plan, steps);
  EXPECT_TRUE(flight.assumed);
  EXPECT_NEAR(flight.up.x_m, -1, 1e-12);
  EXPECT_NEAR(flight.up.y_m, 0, 1e-12);
  EXPECT_EQ(flight.treads.size(), 3u);  // 0.5 m in risers of no more than 0.17 m
}

}  // namespace
}  // namespace duskwire::study
