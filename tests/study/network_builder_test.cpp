// SPDX-License-Identifier: Apache-2.0
#include "study/network_builder.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "study/wired_jobs.hpp"

namespace duskwire::study {
namespace {

using tests::add_cable;
using tests::add_joint;
using tests::add_lamp;
using tests::add_transformer;

const electrical::Network& network(const Built& built) { return electrical::network_of(*built.prepared); }

const electrical::Segment& segment_of_cable(const Built& built, std::size_t cable) {
  return network(built).segments[built.segment_of_cable[cable]];
}

std::size_t count(const Built& built, TroubleKind kind) {
  return static_cast<std::size_t>(std::count_if(built.troubles.begin(), built.troubles.end(),
                                                [&](const Trouble& trouble) { return trouble.kind == kind; }));
}

TEST(NetworkBuilder, IdsGoToNodesAndBack) {
  const job::Job job = tests::two_splice_site();
  const Built built = build(job);
  EXPECT_EQ(built.troubles.size(), 0u);
  for (const char* id : {"T-A", "S1", "S2", "F1", "F8"}) {
    const std::uint32_t node = built.node_of(id);
    ASSERT_NE(node, none) << id;
    EXPECT_EQ(id_of(job, built.spot_of_node(node)), id);
  }
  EXPECT_EQ(built.node_of("nobody"), none);
  EXPECT_EQ(built.node_of("run-1"), none) << "a cable is no place";
  EXPECT_EQ(network(built).segments.size(), job.cables.size());
  EXPECT_EQ(network(built).loads.size(), job.luminaires.size());
}

TEST(NetworkBuilder, ResistanceIsThatOfRouteAndSlackOfOneConductor) {
  job::Job job = tests::two_splice_site();
  job.practice.slack_at_transformer_m = 1.0;
  job.practice.slack_at_splice_m = 0.3;
  job.practice.slack_at_luminaire_m = 0.6;
  const Built built = build(job);
  // 30 m + 1.0 + 0.3, 8 m + 0.3 + 0.6, at 5.211 and 8.286 ohm/km.
  EXPECT_NEAR(segment_of_cable(built, 0).copper_a_ohm, 31.3 * 0.005211, 1e-12);
  EXPECT_NEAR(segment_of_cable(built, 2).copper_b_ohm, 8.9 * 0.008286, 1e-12);
  EXPECT_NEAR(built.wires[built.segment_of_cable[0]].length_m, 31.3, 1e-12);
}

TEST(NetworkBuilder, OwnSlackOfACableGoesBeforeThePractice) {
  job::Job job = tests::two_splice_site();
  job.practice.slack_at_transformer_m = 1.0;
  job.cables[0].slack_from_m = 2.5;
  job.cables[0].slack_to_m = 0.5;
  EXPECT_NEAR(segment_of_cable(build(job), 0).copper_a_ohm, 33 * 0.005211, 1e-12);
}

TEST(NetworkBuilder, EachWireEndInAJointAddsOneContactPerConductor) {
  job::Job job = tests::two_splice_site();
  job.catalogue.connectors[0].contact_ohm = 0.002;
  add_lamp(job, "F9", "path-3va").joint = "S2";
  const Built built = build(job);
  EXPECT_DOUBLE_EQ(segment_of_cable(built, 0).contact_a_ohm, 0.002) << "output to joint: one end";
  EXPECT_DOUBLE_EQ(segment_of_cable(built, 1).contact_b_ohm, 0.004) << "joint to joint: two ends";
  const electrical::Segment& lead = network(built).segments[built.segment_of_lead[8]];
  EXPECT_DOUBLE_EQ(lead.contact_a_ohm, 0.002);
  // 1 m of 0.823 mm2 at 1/58 ohm mm2/m (100 % IACS).
  EXPECT_NEAR(lead.copper_a_ohm, 1.0 / 58 / 0.823, 1e-12);
}

TEST(NetworkBuilder, LeadOfItsOwnLengthCounts) {
  job::Job job = tests::two_splice_site();
  job::Luminaire& lamp = add_lamp(job, "F9", "path-3va");
  lamp.joint = "S2";
  lamp.lead_length_m = 7;
  const Built built = build(job);
  EXPECT_NEAR(built.wires[built.segment_of_lead[8]].length_m, 7, 1e-12);
  EXPECT_NEAR(built.supply[built.node_of("F9")].distance_m, 52, 1e-9);
}

TEST(NetworkBuilder, DimmedLampsHaveTheirLevelInTheCondition) {
  job::Job job = tests::two_splice_site();
  EXPECT_TRUE(build(job).nominal.load_level.empty()) << "all full: the engine takes its short way";
  job.luminaires[2].dim_pct = 40;
  const Built built = build(job);
  ASSERT_EQ(built.nominal.load_level.size(), 8u);
  EXPECT_FLOAT_EQ(built.nominal.load_level[2], 0.4F);
  EXPECT_FLOAT_EQ(built.nominal.load_level[3], 1.0F);
}

TEST(NetworkBuilder, LampKindsBecomeLoadKinds) {
  job::Job job = tests::two_splice_site();
  job.catalogue.luminaires[0].lamp = job::LampKind::filament;
  job.catalogue.luminaires[0].rated_v = 11.5;
  job.catalogue.luminaires[1].lamp = job::LampKind::constant_current_led;
  const Built built = build(job);
  EXPECT_EQ(network(built).loads[0].kind, electrical::LoadKind::filament);
  EXPECT_DOUBLE_EQ(network(built).loads[0].rated_v, 11.5);
  EXPECT_DOUBLE_EQ(built.lamps[0].floor_v, 10) << "a filament has a window, no regulation";
  EXPECT_EQ(network(built).loads[4].kind, electrical::LoadKind::constant_current_led);
}

TEST(NetworkBuilder, VoltAmperesAreNeverBelowWatts) {
  job::Job job = tests::two_splice_site();
  job.catalogue.luminaires[0].power_va = 0;
  const Built built = build(job);
  EXPECT_DOUBLE_EQ(network(built).loads[0].power_va, 6);
  EXPECT_DOUBLE_EQ(built.lamps[0].power_factor, 1);
}

TEST(NetworkBuilder, WhatHangsLooseIsToldAndLeftOut) {
  job::Job job = tests::two_splice_site();
  add_cable(job, "loose", "12awg-2", "S2", "nowhere", 5);
  add_cable(job, "stub", "12awg-2", "S2", "S2", 5);
  add_cable(job, "of-nothing", "none-such", "S1", "S2", 5);
  add_cable(job, "unmeasured", "12awg-2", "S1", "S2", 5).length_m.reset();
  add_cable(job, "backwards", "12awg-2", "S1", "S2", -5);
  add_lamp(job, "F9", "path-3va").joint = "S9";
  add_lamp(job, "F10", "none-such").joint = "S2";
  const Built built = build(job);
  EXPECT_EQ(count(built, TroubleKind::dangling_cable), 1u);
  EXPECT_EQ(count(built, TroubleKind::cable_on_itself), 1u);
  EXPECT_EQ(count(built, TroubleKind::unknown_item), 2u);
  EXPECT_EQ(count(built, TroubleKind::length_missing), 2u);
  EXPECT_EQ(count(built, TroubleKind::unknown_joint), 1u);
  EXPECT_EQ(count(built, TroubleKind::lamp_no_supply), 1u) << "F9 hangs on nothing";
  for (std::size_t cable = 10; cable < job.cables.size(); ++cable) EXPECT_EQ(built.segment_of_cable[cable], none);
}

TEST(NetworkBuilder, CableOfNoLengthIsToldAndKept) {
  job::Job job = tests::two_splice_site();
  job.cables[1].length_m = 0;
  const Built built = build(job);
  EXPECT_EQ(count(built, TroubleKind::length_zero), 1u);
  EXPECT_NE(built.segment_of_cable[1], none);
}

TEST(NetworkBuilder, ImpossibleValuesAreToldOncePerItem) {
  job::Job job = tests::two_splice_site();
  job.catalogue.cables[1].ohm_per_m_20c = -1;  // eight leads use it
  job.catalogue.luminaires[0].power_va = -6;
  job.catalogue.transformers[0].r_own_ohm = -0.1;
  const Built built = build(job);
  EXPECT_EQ(count(built, TroubleKind::bad_value), 3u);
  // Copper of its area stands in: 8 m of 2.0809 mm2.
  EXPECT_NEAR(segment_of_cable(built, 2).copper_a_ohm, 8.0 / 58 / 2.0809, 1e-12);
  EXPECT_DOUBLE_EQ(network(built).loads[0].power_va, 6) << "its watts";
}

TEST(NetworkBuilder, TapAndOutputsThatTheItemLacksAreTold) {
  job::Job job = tests::two_splice_site();
  job.transformers[0].outputs[0].tap_v = 22;
  tests::add_output(job, "T-B", 13);
  const Built built = build(job);
  EXPECT_EQ(count(built, TroubleKind::tap_not_offered), 1u);
  EXPECT_EQ(count(built, TroubleKind::too_many_outputs), 1u);
  EXPECT_EQ(count(built, TroubleKind::output_unused), 1u);
}

TEST(NetworkBuilder, SecondThingOfAnIdIsTold) {
  job::Job job = tests::two_splice_site();
  add_joint(job, "S1");
  add_lamp(job, "S2", "path-3va");
  EXPECT_EQ(count(build(job), TroubleKind::duplicate_id), 2u);
}

TEST(NetworkBuilder, EmptyJobBuilds) {
  const job::Job job;
  const Built built = build(job);
  EXPECT_EQ(count(built, TroubleKind::no_lamps), 1u);
  EXPECT_EQ(network(built).node_count, 0u);
}

}  // namespace
}  // namespace duskwire::study
