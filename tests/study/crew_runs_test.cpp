// SPDX-License-Identifier: Apache-2.0
// Volts of the acceptance site on tap 13: S1 11.88, S2 11.63, F1 11.81, F5 11.61, F8 11.51, run 3.59 A (a scalar
// network worked out apart from this program), each to 0.03 V and 0.02 A.
#include "study/crew_runs.hpp"

#include <gtest/gtest.h>

#include "study/check.hpp"
#include "study/wired_jobs.hpp"

namespace duskwire::study {
namespace {

std::vector<CrewRun> runs_of(const job::Job& job) { return crew_runs(job, {}, check(job, {}, {}, {.cures = false})); }

const CrewStep& step_of(const CrewRun& run, const std::string& cable) {
  for (const CrewStep& step : run.steps) {
    if (step.cable == cable) return step;
  }
  ADD_FAILURE() << "no step " << cable;
  return run.steps.front();
}

TEST(CrewRuns, WalkOutFromTheOutputWithVoltsAndAmps) {
  const auto runs = runs_of(tests::two_splice_site());
  ASSERT_EQ(runs.size(), 1u);
  const CrewRun& run = runs[0];
  EXPECT_EQ(run.output, "T-A");
  EXPECT_EQ(run.tap_v, 13);
  EXPECT_NEAR(run.current_a, 3.59, 0.02);
  EXPECT_NEAR(run.va, 42, 1e-6);
  ASSERT_EQ(run.steps.size(), 10u);
  EXPECT_EQ(run.steps[0].cable, "run-1");
  EXPECT_NEAR(run.steps[0].to_v, 11.88, 0.03);
  EXPECT_EQ(run.steps[0].level, 0u);
  EXPECT_NEAR(step_of(run, "run-2").to_v, 11.63, 0.03);
  EXPECT_NEAR(step_of(run, "lead-F8").to_v, 11.51, 0.03);
  EXPECT_EQ(step_of(run, "lead-F8").level, 2u);
  EXPECT_NEAR(run.route_m, 30 + 15 + 4 * 8 + 3 * 5 + 10, 1e-9);
}

TEST(CrewRuns, ABranchStandsWholeBeforeTheNextBegins) {
  const auto runs = runs_of(tests::chained_garden(4, 3, 13));
  ASSERT_EQ(runs.size(), 2u);
  std::vector<std::string> order;
  for (const CrewStep& step : runs[0].steps) order.push_back(step.cable);
  EXPECT_EQ(order, (std::vector<std::string>{"C0-0", "C0-1", "C0-2", "C2-0", "C2-1", "C2-2"}));
}

TEST(CrewRuns, ACableDrawnTowardsTheTransformerIsWalkedTheOtherWay) {
  job::Job job = tests::two_splice_site();
  std::swap(job.cables[1].from, job.cables[1].to);
  const auto runs = runs_of(job);
  const CrewStep& step = step_of(runs[0], "run-2");
  EXPECT_EQ(step.from, "S1");
  EXPECT_EQ(step.to, "S2");
  EXPECT_NEAR(step.to_v, 11.63, 0.03);
}

TEST(CrewRuns, ALoopIsWalkedOnceAndSaysWhereItCloses) {
  job::Job job = tests::chained_garden(1, 4, 13);
  tests::add_cable(job, "back", "12awg-2", "J0-3", "T-A", 6);
  const auto runs = runs_of(job);
  ASSERT_EQ(runs[0].steps.size(), 5u);
  std::size_t closing = 0;
  for (const CrewStep& step : runs[0].steps) closing += step.closes_loop ? 1 : 0;
  EXPECT_EQ(closing, 1u);
  EXPECT_EQ(runs[0].lamps.size(), 4u);
}

TEST(CrewRuns, WhatNothingFeedsStandsLast) {
  job::Job job = tests::two_splice_site();
  tests::add_lamp(job, "F9", "path-3va");
  tests::add_joint(job, "S9");
  tests::add_cable(job, "stray", "12awg-2", "S9", "F9", 3);
  const auto runs = runs_of(job);
  ASSERT_EQ(runs.size(), 2u);
  EXPECT_EQ(runs[1].output, "");
  ASSERT_EQ(runs[1].steps.size(), 1u);
  EXPECT_EQ(runs[1].steps[0].cable, "stray");
  ASSERT_EQ(runs[1].lamps.size(), 1u);
  EXPECT_EQ(runs[1].lamps[0].id, "F9");
}

}  // namespace
}  // namespace duskwire::study
