// SPDX-License-Identifier: Apache-2.0
// Commissioning and service calls told as jobs with readings. Expected numbers are those of the acceptance stories:
// computed outside the engine (scalar RMS network, copper at 20 C), and shares by weights of 3 : 1 : 3.
#include "study/locate.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "study/wired_jobs.hpp"

namespace duskwire::study {
namespace {

using diagnosis::FaultKind;
using diagnosis::Verdict;
using testing::HasSubstr;

job::Reading reading(const std::string& place, const std::string& quantity, double value) {
  job::Reading one;
  one.place = place;
  one.quantity = quantity;
  one.value = value;
  one.unit = quantity == "current" ? "A" : "V";
  return one;
}

job::Visit& visit(job::Job& job, job::VisitKind kind, const std::string& date) {
  job.visits.emplace_back();
  job.visits.back().kind = kind;
  job.visits.back().date = date;
  return job.visits.back();
}

// All lamps of one hub read the same.
job::Job commissioned(double amps, double f1_v, double f5_v, double f8_v) {
  job::Job job = tests::two_splice_site();
  job::Visit& day = visit(job, job::VisitKind::commissioning, "2026-04-02");
  day.readings.push_back(reading("T-A", "current", amps));
  for (const char* id : {"F1", "F2", "F3", "F4"}) day.readings.push_back(reading(id, "voltage", f1_v));
  for (const char* id : {"F5", "F6", "F7"}) day.readings.push_back(reading(id, "voltage", f5_v));
  day.readings.push_back(reading("F8", "voltage", f8_v));
  return job;
}

TEST(Locate, CommissioningFindsTheSpliceThatAllLitHides) {
  const Located located = locate(commissioned(3.68, 11.78, 10.99, 10.88));
  ASSERT_FALSE(located.causes.empty());
  const LocatedCause& cause = located.causes.front();
  ASSERT_EQ(cause.faults.size(), 1U);
  EXPECT_EQ(cause.faults[0].kind, FaultKind::resistive);
  EXPECT_EQ(cause.faults[0].id, "run-2");  // S2 or the end of the 15 m cable
  EXPECT_NEAR(cause.faults[0].value.value_or(0), 0.35, 0.05);
  EXPECT_GT(located.brackets.front().chance, 0.9);
  EXPECT_NE(located.verdict, Verdict::sound) << "all lit is not a pass";
  for (const ComparedReading& one : located.compared) {
    const bool beyond = one.place >= "F5" && one.place <= "F8";
    EXPECT_EQ(one.in_tolerance, !beyond) << one.place;
  }
}

TEST(Locate, CommissioningTellsADeadLampFromASplice) {
  job::Job job = commissioned(3.04, 11.99, 11.78, 11.68);
  const Located located = locate(job);
  const LocatedFault& fault = located.causes.front().faults.at(0);
  EXPECT_EQ(fault.kind, FaultKind::dead_lamp);
  EXPECT_THAT(fault.id, testing::AnyOf("F1", "F2", "F3", "F4")) << "6 VA at the first hub";
  job::Reading dark;
  dark.place = "F3";
  dark.quantity = "lamp_state";
  dark.seen = job::Seen::dark;
  job.visits.back().readings.push_back(dark);
  EXPECT_EQ(locate(job).causes.front().faults.at(0).id, "F3");
}

TEST(Locate, ACommissioningAsPlannedPasses) {
  const Located located = locate(commissioned(3.59, 11.81, 11.61, 11.51));
  EXPECT_EQ(located.verdict, Verdict::sound);
  for (const ComparedReading& one : located.compared) EXPECT_TRUE(one.in_tolerance) << one.place;
}

// The reference run: 18 m of 12 AWG to F1, then 4.5 m steps to F8, eight lamps of 4 VA, each beside a buried joint.
job::Job eight_lamps() {
  job::Job job = tests::plain_job();
  job::LuminaireItem item = job.catalogue.luminaires.front();
  item.id = "four";
  item.power_va = item.power_w = 4;
  item.lead_length_m = 0;
  job.catalogue.luminaires.push_back(item);
  tests::add_transformer(job, "T", "ideal", "T-A", 13);
  job.plan.fixed_points = {{"P1", "house corner", {0, 0}, {}}, {"P2", "gate post", {20, 0}, {}}};
  for (int k = 1; k <= 8; ++k) {
    const std::string joint = "J" + std::to_string(k);
    job::Joint& made = tests::add_joint(job, joint);
    made.position = geometry::Point2{18 + 4.5 * (k - 1), 8};
    made.as_built = job::AsBuilt{};
    made.as_built->fixed_point_1 = "P1";
    made.as_built->fixed_point_2 = "P2";
    made.as_built->offset_1_m = 10.0 + k;
    made.as_built->offset_2_m = 7.0 + k;
    made.as_built->depth_m = 0.15;
    made.as_built->pictures = {"trench-" + std::to_string(k)};
    tests::add_cable(job, "C" + std::to_string(k), "12awg-2", k == 1 ? "T-A" : "J" + std::to_string(k - 1), joint,
                     k == 1 ? 18 : 4.5);
    tests::add_lamp(job, "F" + std::to_string(k), "four").joint = joint;
  }
  job::Area bed;
  bed.id = "bed";
  bed.kind = job::GroundKind::bed;
  bed.outline = {{0, 7}, {33, 7}, {33, 9}, {0, 9}};
  job::Area lawn = bed;
  lawn.id = "lawn";
  lawn.kind = job::GroundKind::lawn;
  lawn.outline = {{33, 7}, {60, 7}, {60, 9}, {33, 9}};
  job.plan.areas = {bed, lawn};  // J4 at 31.5 m in mulch, J5 at 36 m in lawn
  return job;
}

job::Job half_dark() {
  job::Job job = eight_lamps();
  job::Visit& call = visit(job, job::VisitKind::service, "2031-05-20");
  call.complaint = "half are dark; we planted roses by F7 last week";
  call.answers.age_years = 5;
  call.answers.dug_near = {"J7"};
  call.readings = {reading("T-A", "voltage", 13.0), reading("T-A", "current", 1.26), reading("F4", "voltage", 12.68),
                   reading("F5", "voltage", 0)};
  return job;
}

const LocatedPlace* place(const Located& located, const std::string& id, const std::string& cable) {
  for (const LocatedBracket& bracket : located.brackets) {
    for (const LocatedPlace& one : bracket.places) {
      if (one.id == id && one.cable == cable) return &one;
    }
  }
  return nullptr;
}

TEST(Locate, AServiceCallEndsAtTheRightHole) {
  const Located located = locate(half_dark());
  EXPECT_EQ(located.verdict, Verdict::located);
  ASSERT_NE(place(located, "J4", "C5"), nullptr);
  EXPECT_NEAR(place(located, "J4", "C5")->chance, 0.43, 0.01);
  EXPECT_NEAR(place(located, "C5", "")->chance, 0.14, 0.01);
  EXPECT_NEAR(place(located, "J5", "C5")->chance, 0.43, 0.01);
  EXPECT_EQ(place(located, "C7", ""), nullptr) << "roses beyond the bracket raise nothing";
}

TEST(Locate, TheCheaperHoleComesFirstWithTapesDepthAndPicture) {
  const Located located = locate(half_dark());
  ASSERT_GE(located.dig_order.size(), 2U);
  const DigSpot& first = located.dig_order[0];
  EXPECT_EQ(first.id, "J4");
  EXPECT_EQ(first.effort_min, 12);  // mulch, 0.2 h
  EXPECT_EQ(located.dig_order[1].id, "J5");
  EXPECT_EQ(located.dig_order[1].effort_min, 30);  // lawn, 0.5 h
  ASSERT_TRUE(first.offsets.has_value());
  EXPECT_EQ(first.offsets->first.distance_m, 14);
  EXPECT_EQ(first.offsets->second.distance_m, 11);
  EXPECT_TRUE(first.offsets->measured);
  EXPECT_EQ(first.depth_m, 0.15);
  EXPECT_EQ(first.pictures, std::vector<std::string>{"trench-4"});
  EXPECT_FALSE(first.cautions.empty());
}

TEST(Locate, LoadedVoltsOnTheOutgoingCableDropTheFirstHole) {
  job::Job job = half_dark();
  job::Reading outgoing = reading("C5", "voltage", 12.7);
  outgoing.at = "J4";
  job.visits.back().readings.push_back(outgoing);
  const Located located = locate(job);
  EXPECT_NEAR(place(located, "C5", "")->chance, 0.25, 0.01);
  EXPECT_NEAR(place(located, "J5", "C5")->chance, 0.75, 0.01);
  const LocatedPlace* dropped = place(located, "J4", "C5");
  EXPECT_LT(dropped ? dropped->chance : 0, 0.01);
}

TEST(Locate, AResistingSpliceIsFittedThoughAllAreLit) {
  job::Job job = eight_lamps();
  visit(job, job::VisitKind::service, "2031-05-20").readings = {
      reading("T-A", "voltage", 13.0), reading("T-A", "current", 2.70), reading("F4", "voltage", 12.20),
      reading("F5", "voltage", 11.43)};
  const LocatedCause cause = locate(job).causes.front();
  EXPECT_EQ(cause.faults.at(0).id, "C5");
  EXPECT_NEAR(cause.faults[0].value.value_or(0), 0.5, 0.1);
  EXPECT_THAT(cause.text, HasSubstr("0.5 ohm"));
}

TEST(Locate, AClampFindsTheOpenConductorOfALoop) {
  job::Job job = eight_lamps();
  tests::add_cable(job, "C9", "12awg-2", "J8", "T-A", 18);
  job::Visit& call = visit(job, job::VisitKind::care, "2031-05-20");
  call.readings = {reading("C1", "current", 0.62), reading("C1", "current", 1.26), reading("C1", "current", 0.64)};
  call.readings[1].clamped = job::Clamped::other;
  call.readings[2].clamped = job::Clamped::net;
  const Located located = locate(job);
  EXPECT_THAT(located.causes.front().text, HasSubstr("One conductor open in C3 between J2 and J3"));
  ASSERT_EQ(located.hidden.size(), 1U);
  EXPECT_THAT(located.hidden[0], HasSubstr("C5 between J4 and J5"));
  EXPECT_THAT(located.hidden[0], HasSubstr("Lift one leg"));
}

TEST(Locate, VoltsWithoutLoadAreSetAside) {
  job::Job job = half_dark();
  job::Reading ghost = reading("F5", "voltage", 11.9);
  ghost.load = job::ReadingLoad::open_circuit;
  job.visits.back().readings.push_back(ghost);
  job.visits.back().readings.push_back(reading("F99", "voltage", 12));
  const Located located = locate(job);
  ASSERT_EQ(located.unused.size(), 2U);
  EXPECT_THAT(located.unused[0].why, HasSubstr("ghost"));
  EXPECT_EQ(located.verdict, Verdict::located);
}

TEST(Locate, DriftAgainstAnEarlierVisitIsTold) {
  job::Job job = eight_lamps();
  visit(job, job::VisitKind::care, "2031-03-01").readings = {reading("F8", "voltage", 12.08)};
  visit(job, job::VisitKind::care, "2031-09-01").readings = {reading("F8", "voltage", 11.68)};
  const Located located = locate(job);
  ASSERT_EQ(located.drift.size(), 1U);
  EXPECT_EQ(located.drift[0].text, "F8 has lost 0.40 V since 2031-03-01");
}

TEST(Locate, DriftTellsTheRunFromItsOutput) {
  job::Job job = eight_lamps();
  visit(job, job::VisitKind::commissioning, "2031-03-01").readings = {reading("T-A", "voltage", 13.0),
                                                                      reading("F8", "voltage", 12.08)};
  visit(job, job::VisitKind::care, "2032-03-01").readings = {reading("T-A", "voltage", 12.9),
                                                             reading("F8", "voltage", 11.68)};
  Located located = locate(job);
  ASSERT_EQ(located.drift.size(), 1U);
  EXPECT_EQ(located.drift[0].text, "F8 has lost 0.40 V since 2031-03-01, -0.30 V of it on the run from T-A");
  job.visits.back().readings[0].value = 12.6;
  located = locate(job);
  ASSERT_EQ(located.drift.size(), 2U);
  EXPECT_THAT(located.drift[1].text, HasSubstr("and so has T-A: mains or tap, not the run"));
}

TEST(Locate, ReadingsFromAFileAreHeldAgainstEveryVisit) {
  job::Job job = eight_lamps();
  visit(job, job::VisitKind::care, "2031-03-01").readings = {reading("F8", "voltage", 12.08)};
  LocateOptions options;
  options.readings_alone = true;
  options.readings = {reading("F8", "voltage", 11.68)};
  const Located located = locate(job, options);
  ASSERT_EQ(located.drift.size(), 1U);
  EXPECT_EQ(located.drift[0].since, "2031-03-01");
}

TEST(Locate, WithoutReadingsTheFirstOnesAreAsked) {
  const Located located = locate(eight_lamps());
  EXPECT_EQ(located.verdict, Verdict::no_readings);
  ASSERT_FALSE(located.next.empty());
  EXPECT_FALSE(located.next.front().outcomes.empty());
  EXPECT_EQ(located.next.front().reads, "lamp_state");
  EXPECT_EQ(located.next.front().place, "") << "all lamps at one look";
  EXPECT_THAT(located.next.front().text, HasSubstr("Which lamps are out"));
  ASSERT_TRUE(located.half_split);
  EXPECT_EQ(located.half_split->reads, "voltage");
}

}  // namespace
}  // namespace duskwire::study
