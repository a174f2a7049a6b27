// SPDX-License-Identifier: Apache-2.0
// A walk over a job whose wiring is known and was taken away: what is found again, what is drawn, and what is said of a
// walk that cannot be right.
#include "study/trace.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "study/wired_jobs.hpp"

namespace duskwire::study {
namespace {

using testing::HasSubstr;

// Two runs that leave one transformer at right angles, three lamps along each, every lamp a metre off its cable.
job::Job unwired() {
  job::Job job = tests::plain_job();
  tests::add_transformer(job, "T", "ideal", "T-A", 13).position = geometry::Point2{0, 0};
  for (int k = 1; k <= 3; ++k) {
    tests::add_lamp(job, "E" + std::to_string(k), "uplight-6va").position = geometry::Point3{8.0 * k, 1, 0};
    tests::add_lamp(job, "N" + std::to_string(k), "path-3va").position = geometry::Point3{1, 8.0 * k, 0};
  }
  return job;
}

TraceRequest walked() {
  TraceRequest request;
  request.runs.resize(2);
  request.runs[0].id = "east";
  request.runs[1].id = "north";
  for (WalkedRun& run : request.runs) run.output = "T-A";
  request.runs[0].ways = {{{{0, 0}, {24, 0}}}};
  request.runs[1].ways = {{{{0, 0}, {0, 32}}}};
  request.runs[0].current_a = 1.43;  // 3 of 6 VA near 12.6 V
  request.runs[1].current_a = 0.71;
  return request;
}

const LampFound& lamp(const Traced& traced, const std::string& id) {
  return *std::find_if(traced.lamps.begin(), traced.lamps.end(), [&](const LampFound& one) { return one.id == id; });
}

TEST(StudyTrace, FindsRunsAndDrawsThemAsAnOrdinaryJob) {
  const Traced traced = trace(unwired(), tests::stock(), walked());
  ASSERT_TRUE(traced.job) << "no errors in the request";
  for (const char* id : {"E1", "E2", "E3"}) EXPECT_EQ(lamp(traced, id).run, "east") << id;
  for (const char* id : {"N1", "N2", "N3"}) EXPECT_EQ(lamp(traced, id).run, "north") << id;
  EXPECT_GT(lamp(traced, "E3").chance, 0.9);
  EXPECT_THAT(lamp(traced, "E3").text, HasSubstr("on run east"));
  const job::Job& job = *traced.job;
  EXPECT_EQ(job.cables.size(), 6U);
  EXPECT_EQ(job.joints.size(), 6U);
  EXPECT_EQ(job.cables.front().from, "T-A");
  for (const job::Luminaire& one : job.luminaires) {
    EXPECT_FALSE(one.joint.empty()) << one.id;
    EXPECT_NEAR(one.lead_length_m.value_or(0), 1, 0.06) << one.id;
  }
  ASSERT_EQ(traced.runs[0].parts.size(), 3U);
  EXPECT_NEAR(traced.runs[0].parts[0].current_a, 1.5, 1e-9) << "three of 6 VA at 12 V beyond the first cable";
  EXPECT_NEAR(traced.runs[0].parts[2].current_a, 0.5, 1e-9);
  EXPECT_NEAR(traced.runs[0].parts[1].length_m, 8, 1e-9);
  EXPECT_GE(traced.runs[0].parts[0].chance, traced.runs[0].parts[2].chance);
  EXPECT_NEAR(traced.runs[0].parts[0].end_chance, lamp(traced, "E1").chance, 1e-9);
}

TEST(StudyTrace, SaysWhatDoesNotFit) {
  TraceRequest request = walked();
  request.runs[0].current_a = 2.9;
  const Traced traced = trace(unwired(), tests::stock(), request);
  const auto says = [&](const char* text) {
    return std::any_of(traced.remarks.begin(), traced.remarks.end(),
                       [&](const std::string& one) { return one.find(text) != std::string::npos; });
  };
  EXPECT_TRUE(says("Run east draws 2.90 A"));
  EXPECT_TRUE(says("Run north was walked 8 m beyond its last lamp"));
}

TEST(StudyTrace, ALampThatWentDarkHangsOnTheRunThatWasLifted) {
  TraceRequest request = walked();
  request.runs[0].current_a.reset();
  request.runs[1].current_a.reset();
  request.runs[1].went_dark = {"E1"};
  request.runs[1].stayed_lit = {"N1"};
  const Traced traced = trace(unwired(), tests::stock(), request);
  EXPECT_EQ(lamp(traced, "E1").run, "north");
  EXPECT_NE(lamp(traced, "N1").run, "north");
}

TEST(StudyTrace, AllThatIsWrongWithAWalkIsTold) {
  TraceRequest request = walked();
  request.visit = 3;
  request.runs[0].output = "T-Z";
  request.runs[0].item = "no-such-cable";
  request.runs[0].went_dark = {"F9", "E1"};
  request.runs[0].stayed_lit = {"E1"};
  request.runs[1].id = "east";
  request.runs[1].ways.push_back({{{9, 9}, {9, 12}}});
  request.runs[1].clamps = {{{20, 20}, 0.3}};
  const Traced traced = trace(unwired(), tests::stock(), request);
  EXPECT_FALSE(traced.job);
  std::set<std::string> pointers;
  for (const Problem& problem : traced.problems) {
    EXPECT_FALSE(problem.message.empty() || problem.expected.empty()) << problem.pointer;
    pointers.insert(problem.pointer);
  }
  EXPECT_THAT(pointers, testing::UnorderedElementsAre("/visit", "/runs/0/output", "/runs/0/item", "/runs/0/went_dark/0",
                                                      "/runs/0/stayed_lit", "/runs/1/id", "/runs/1/ways/1/path/0",
                                                      "/runs/1/clamps/0/at"));
}

TEST(StudyTrace, AWalkOfNothingIsRefused) {
  EXPECT_TRUE(has_errors(trace(unwired(), tests::stock(), {}).problems));
  const Traced wired = trace(tests::two_splice_site(), tests::stock(), walked());
  EXPECT_TRUE(has_errors(wired.problems)) << "every lamp hangs on something already";
}

}  // namespace
}  // namespace duskwire::study
