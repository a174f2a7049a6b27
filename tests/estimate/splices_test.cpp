// SPDX-License-Identifier: Apache-2.0
#include "estimate/splices.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "estimate/jobs.hpp"

namespace duskwire::estimate {
namespace {

const Problem* problem_at(const Materials& list, const std::string& pointer) {
  const auto found = std::find_if(list.problems.begin(), list.problems.end(),
                                  [&](const Problem& problem) { return problem.pointer == pointer; });
  return found == list.problems.end() ? nullptr : &*found;
}

TEST(Splices, TwoConnectorsPerJointOnePerConductor) {
  const Materials list = materials(tests::two_hub_garden(), {});
  ASSERT_EQ(list.splices.size(), 2u);
  EXPECT_EQ(list.splices[0].pieces, 2u);
  EXPECT_EQ(list.splices[0].wires_per_conductor, 6u);
  EXPECT_EQ(list.splices[0].kind, job::JointKind::hub);
  EXPECT_EQ(list.splices[0].spare_ports, 0u);
  EXPECT_EQ(list.splices[1].spare_ports, 1u);
  EXPECT_NE(list.splices[1].note.find("room for 1 more"), std::string::npos);
}

TEST(Splices, JointWithoutAConnectorGetsASuggestion) {
  job::Job job = tests::two_hub_garden();
  job.joints[1].connector.clear();
  const Materials list = materials(job, {});
  EXPECT_TRUE(list.splices[1].suggested);
  EXPECT_EQ(list.splices[1].connector, "gel-6");
  EXPECT_TRUE(list.problems.empty());
}

TEST(Splices, OnePieceFromTheStockGoesBeforePigtailsFromTheJob) {
  job::Job job = tests::two_hub_garden();
  job.joints[1].connector.clear();
  job.catalogue.connectors = {job.catalogue.connectors[0]};
  job.joints[0].connector = "gel-3";
  const Materials list = materials(job, tests::test_catalogue());
  EXPECT_EQ(list.splices[1].connector, "gel-6");
  EXPECT_EQ(list.splices[0].connector, "gel-3");
  EXPECT_EQ(list.splices[0].pieces_per_conductor, 4u);
  EXPECT_EQ(list.splices[0].pieces, 8u);
  EXPECT_NE(list.splices[0].note.find("3 pigtails"), std::string::npos);
}

TEST(Splices, ChosenConnectorThatDoesNotFitIsCountedAndSaidSo) {
  job::Job job = tests::two_hub_garden();
  job.catalogue.connectors[1].fills[0].area_max_mm2 = 2.5;
  const Materials list = materials(job, {});
  const Problem* problem = problem_at(list, "/joints/0/connector");
  ASSERT_NE(problem, nullptr);
  EXPECT_EQ(problem->severity, Severity::warning);
  EXPECT_NE(problem->message.find("8 x gel-3"), std::string::npos);
  EXPECT_FALSE(list.splices[0].fits);
  EXPECT_EQ(list.splices[0].pieces, 2u);
}

TEST(Splices, WhereNothingFitsNothingIsCounted) {
  job::Job job = tests::two_hub_garden();
  job.joints[0].connector.clear();
  job.catalogue.connectors = {};
  job.joints[1].connector = "gone";
  const Materials list = materials(job, {});
  ASSERT_NE(problem_at(list, "/joints/0/connector"), nullptr);
  ASSERT_NE(problem_at(list, "/joints/1/connector"), nullptr);
  EXPECT_EQ(list.splices[0].pieces, 0u);
  EXPECT_EQ(list.splices[1].pieces, 0u);
}

TEST(Splices, RecordedCountBelowTheNeedIsSaidAndTheNeedCounted) {
  job::Job job = tests::two_hub_garden();
  job.joints[0].connector_count = 1;  // both conductors in one
  job.joints[1].connector_count = 3;
  const Materials list = materials(job, {});
  EXPECT_NE(problem_at(list, "/joints/0/connector_count"), nullptr);
  EXPECT_EQ(list.splices[0].pieces, 2u);
  EXPECT_EQ(list.splices[1].pieces, 3u);
}

TEST(Splices, JointWithOneWireTakesNothing) {
  job::Job job = tests::two_hub_garden();
  job::Joint stub;
  stub.id = "S3";
  job.joints.push_back(stub);
  const Materials list = materials(job, {});
  EXPECT_EQ(list.splices[2].pieces, 0u);
  EXPECT_FALSE(list.splices[2].kind);
  EXPECT_NE(problem_at(list, "/joints/2"), nullptr);
}

TEST(Splices, KindThatTheWiresContradictIsANote) {
  job::Job job = tests::two_hub_garden();
  job.joints[0].kind = job::JointKind::branch;
  const Materials list = materials(job, {});
  ASSERT_NE(problem_at(list, "/joints/0/kind"), nullptr);
  EXPECT_EQ(problem_at(list, "/joints/0/kind")->severity, Severity::note);
}

TEST(Splices, CablesThatMeetInALuminaireArePointedAt) {
  job::Job job = tests::two_hub_garden();
  job.cables[3].from = "F1";
  const Materials list = materials(job, {});
  const Problem* problem = problem_at(list, "/luminaires");
  ASSERT_NE(problem, nullptr);
  EXPECT_EQ(problem->severity, Severity::note);
  EXPECT_EQ(problem->value, "F1");
}

TEST(Splices, LeadsThatEndEachAtTheirLuminaireAreNoMatter) {
  EXPECT_EQ(problem_at(materials(tests::two_hub_garden(), {}), "/luminaires"), nullptr);
}

TEST(Splices, HubBoxServesBothConductorsOnce) {
  job::Job job = tests::two_hub_garden();
  job.catalogue.connectors[1].serves_both_conductors = true;
  const Materials list = materials(job, {});
  EXPECT_EQ(list.splices[0].pieces, 1u);
}

}  // namespace
}  // namespace duskwire::estimate
