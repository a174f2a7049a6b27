// SPDX-License-Identifier: Apache-2.0
#include "job/change.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace duskwire::job {
namespace {

CableItem cable_item(const std::string& id) {
  CableItem item;
  item.id = id;
  return item;
}

TransformerItem transformer_item(const std::string& id, std::uint32_t outputs, std::vector<double> taps_v) {
  TransformerItem item;
  item.id = id;
  item.output_count = outputs;
  item.taps_v = std::move(taps_v);
  return item;
}

// T1-A --C1-- S1 --C2-- F1, and F2 on S1 by its own lead.
Job small_job() {
  Job job;
  job.catalogue.cables = {cable_item("12awg-2")};
  job.catalogue.transformers = {transformer_item("150va", 1, {12, 13, 14, 15})};
  job.transformers.push_back({.id = "T1", .item = "150va", .position = geometry::Point2{0, 0}});
  job.transformers[0].outputs = {{.id = "T1-A", .tap_v = 13}};
  job.joints = {{.id = "S1", .position = geometry::Point2{10, 0}}, {.id = "S2", .position = geometry::Point2{20, 5}}};
  job.luminaires = {{.id = "F1"}, {.id = "F2", .joint = "S1"}};
  job.cables = {{.id = "C1", .item = "12awg-2", .from = "T1-A", .to = "S1", .path = {{0, 0}, {10, 0}}},
                {.id = "C2", .item = "12awg-2", .from = "S1", .to = "F1", .length_m = 3}};
  return job;
}

Catalogue stock() {
  Catalogue stock;
  stock.cables = {cable_item("10awg-2")};
  stock.transformers = {transformer_item("300va", 3, {11.5, 12.6, 14.4})};
  stock.connectors.push_back({.id = "hub"});
  stock.luminaires.push_back({.id = "path-2w"});
  return stock;
}

Job changed(const Change& change) {
  const Result<Job> result = apply(small_job(), {change}, stock());
  EXPECT_TRUE(result.ok()) << (result.ok() ? "" : result.error().message);
  return result.ok() ? result.value() : Job{};
}

ErrorCode refusal(const Change& change) {
  const Result<Job> result = apply(small_job(), {change}, stock());
  EXPECT_FALSE(result.ok());
  return result.ok() ? ErrorCode::unavailable : result.error().code;
}

TEST(Change, NoChangesLeaveTheJobAsItIs) { EXPECT_EQ(apply(small_job(), {}, stock()).value(), small_job()); }

TEST(Change, EachKindChangesItsFieldAndNothingElse) {
  const auto expect = [](const Change& change, auto edit) {
    Job expected = small_job();
    edit(expected);
    EXPECT_EQ(changed(change), expected) << static_cast<int>(change.kind);
  };
  expect({ChangeKind::set_tap, "T1-A", "", "", 14}, [](Job& job) { job.transformers[0].outputs[0].tap_v = 14; });
  expect({ChangeKind::set_connector_count, "S1", "", "", 2}, [](Job& job) { job.joints[0].connector_count = 2; });
  expect({ChangeKind::set_depth, "C1", "", "", 0.3}, [](Job& job) { job.cables[0].depth_m = 0.3; });
  expect({ChangeKind::set_slack, "C1", "to", "", 0.5}, [](Job& job) { job.cables[0].slack_to_m = 0.5; });
  expect({ChangeKind::set_slack, "C1", "from", "", 0.5}, [](Job& job) { job.cables[0].slack_from_m = 0.5; });
  expect({ChangeKind::move_luminaire_joint, "F2", "", "S2"}, [](Job& job) { job.luminaires[1].joint = "S2"; });
  expect({ChangeKind::remove_cable, "C1"}, [](Job& job) { job.cables.erase(job.cables.begin()); });
  expect({ChangeKind::set_output_limit, "T1-A", "", "", 10},
         [](Job& job) { job.transformers[0].outputs[0].limit_a = 10; });
  expect({ChangeKind::set_mounting_height, "T1", "", "", 0.5},
         [](Job& job) { job.transformers[0].mounting_height_m = 0.5; });
  expect({ChangeKind::set_extension_cord, "T1", "", "", 1},
         [](Job& job) { job.transformers[0].extension_cord = true; });
  expect({ChangeKind::set_joint_kind, "S1", "", "", 2}, [](Job& job) { job.joints[0].kind = JointKind::hub; });
  expect({ChangeKind::set_crossed, "C1", "", "", 1}, [](Job& job) { job.cables[0].crossed = true; });
}

TEST(Change, ItemsThatTheJobLacksAreCopiedFromTheStock) {
  const Job thicker = changed({ChangeKind::set_cable_item, "C1", "10awg-2"});
  EXPECT_EQ(thicker.cables[0].item, "10awg-2");
  ASSERT_NE(find_cable(thicker.catalogue, "10awg-2"), nullptr);
  EXPECT_EQ(thicker.catalogue.cables.size(), 2u);
  const Job hub = changed({ChangeKind::set_connector, "S1", "hub"});
  EXPECT_EQ(hub.joints[0].connector, "hub");
  EXPECT_NE(find_connector(hub.catalogue, "hub"), nullptr);
  const Job lamp = changed({ChangeKind::set_luminaire_item, "F1", "path-2w"});
  EXPECT_EQ(lamp.luminaires[0].item, "path-2w");
  EXPECT_NE(find_luminaire(lamp.catalogue, "path-2w"), nullptr);
}

TEST(Change, AnItemThatTheJobHasIsNotReplacedByTheStocks) {
  Catalogue other = stock();
  other.cables.push_back(cable_item("12awg-2"));
  other.cables.back().title = "the stock's";
  const Job job = apply(small_job(), {{ChangeKind::set_cable_item, "C1", "12awg-2"}}, other).value();
  EXPECT_EQ(job, small_job());
}

TEST(Change, AMovedEndTakesItsPathAlong) {
  const Job job = changed({ChangeKind::move_cable_end, "C1", "to", "S2"});
  EXPECT_EQ(job.cables[0].to, "S2");
  EXPECT_EQ(job.cables[0].path.back(), (geometry::Point2{20, 5}));
  EXPECT_EQ(job.cables[0].path.front(), (geometry::Point2{0, 0}));
}

TEST(Change, AMovedEndWithoutPositionLeavesThePath) {
  const Job job = changed({ChangeKind::move_cable_end, "C1", "to", "F1"});
  EXPECT_EQ(job.cables[0].to, "F1");
  EXPECT_EQ(job.cables[0].path, small_job().cables[0].path);
}

TEST(Change, ALargerTransformerKeepsItsOutputsOnTheNearestTapAndBringsItsOwn) {
  const Job job = changed({ChangeKind::set_transformer_item, "T1", "300va"});
  const std::vector<Output>& outputs = job.transformers[0].outputs;
  ASSERT_EQ(outputs.size(), 3u);
  EXPECT_EQ(outputs[0].id, "T1-A");
  EXPECT_EQ(outputs[0].tap_v, 12.6);
  EXPECT_EQ(outputs[1].id, "T1-B");
  EXPECT_EQ(outputs[1].tap_v, 12.6);
  EXPECT_EQ(outputs[2].id, "T1-C");
}

TEST(Change, AddedOutputsTakeNoIdThatIsInUse) {
  Job job = small_job();
  job.joints.push_back({.id = "T1-B"});
  const Job larger = apply(job, {{ChangeKind::set_transformer_item, "T1", "300va"}}, stock()).value();
  EXPECT_EQ(larger.transformers[0].outputs[1].id, "T1-C");
  EXPECT_EQ(larger.transformers[0].outputs[2].id, "T1-D");
}

TEST(Change, AnAddedCableJoinsTwoPlaces) {
  const Job job = changed({ChangeKind::add_cable, "C3", "10awg-2", "T1-A S2", 21.5});
  ASSERT_EQ(job.cables.size(), 3u);
  EXPECT_EQ(job.cables[2], (Cable{.id = "C3", .item = "10awg-2", .from = "T1-A", .to = "S2", .length_m = 21.5}));
}

TEST(Change, WhatIsNotThereIsNotFound) {
  for (int kind = 0; kind <= static_cast<int>(ChangeKind::set_crossed); ++kind) {
    const Change change{static_cast<ChangeKind>(kind), "nowhere", "from", "a b", 1};
    if (change.kind == ChangeKind::add_cable) continue;
    EXPECT_EQ(refusal(change), ErrorCode::not_found) << kind;
  }
  EXPECT_EQ(refusal({ChangeKind::set_cable_item, "C1", "no-such"}), ErrorCode::not_found);
  EXPECT_EQ(refusal({ChangeKind::move_cable_end, "C1", "to", "no-such"}), ErrorCode::not_found);
  EXPECT_EQ(refusal({ChangeKind::move_luminaire_joint, "F2", "", "F1"}), ErrorCode::not_found);
  EXPECT_EQ(refusal({ChangeKind::add_cable, "C3", "10awg-2", "T1-A no-such", 1}), ErrorCode::not_found);
  EXPECT_EQ(refusal({ChangeKind::add_cable, "C3", "no-such", "T1-A S2", 1}), ErrorCode::not_found);
}

TEST(Change, ValuesThatNoJobMayHaveAreInvalid) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  for (const double bad : {nan, -1.0, std::numeric_limits<double>::infinity()}) {
    EXPECT_EQ(refusal({ChangeKind::set_tap, "T1-A", "", "", bad}), ErrorCode::invalid);
    EXPECT_EQ(refusal({ChangeKind::set_depth, "C1", "", "", bad}), ErrorCode::invalid);
    EXPECT_EQ(refusal({ChangeKind::set_slack, "C1", "to", "", bad}), ErrorCode::invalid);
    EXPECT_EQ(refusal({ChangeKind::set_output_limit, "T1-A", "", "", bad}), ErrorCode::invalid);
    EXPECT_EQ(refusal({ChangeKind::set_connector_count, "S1", "", "", bad}), ErrorCode::invalid);
    EXPECT_EQ(refusal({ChangeKind::set_joint_kind, "S1", "", "", bad}), ErrorCode::invalid);
    EXPECT_EQ(refusal({ChangeKind::add_cable, "C3", "12awg-2", "T1-A S2", bad}), ErrorCode::invalid);
  }
  EXPECT_EQ(refusal({ChangeKind::set_mounting_height, "T1", "", "", nan}), ErrorCode::invalid);
  EXPECT_EQ(refusal({ChangeKind::set_joint_kind, "S1", "", "", 4}), ErrorCode::invalid);
  EXPECT_EQ(refusal({ChangeKind::set_slack, "C1", "middle", "", 1}), ErrorCode::invalid);
  EXPECT_EQ(refusal({ChangeKind::move_cable_end, "C1", "to", "T1-A"}), ErrorCode::invalid);
  EXPECT_EQ(refusal({ChangeKind::add_cable, "C1", "12awg-2", "T1-A S2", 1}), ErrorCode::invalid);
  EXPECT_EQ(refusal({ChangeKind::add_cable, "C3", "12awg-2", "T1-A", 1}), ErrorCode::invalid);
  EXPECT_EQ(refusal({ChangeKind::add_cable, "C3", "12awg-2", "S2 S2", 1}), ErrorCode::invalid);
  EXPECT_EQ(refusal({static_cast<ChangeKind>(99), "C1"}), ErrorCode::invalid);
}

TEST(Change, LaterChangesSeeEarlierOnes) {
  const Result<Job> result = apply(small_job(),
                                   {{ChangeKind::set_transformer_item, "T1", "300va"},
                                    {ChangeKind::move_cable_end, "C1", "from", "T1-B"},
                                    {ChangeKind::set_tap, "T1-B", "", "", 14.4}},
                                   stock());
  ASSERT_TRUE(result.ok());
  EXPECT_EQ(result.value().cables[0].from, "T1-B");
  EXPECT_EQ(result.value().transformers[0].outputs[1].tap_v, 14.4);
}

TEST(Change, OneBadChangeUndoesAll) {
  const Job before = small_job();
  const Result<Job> result =
      apply(before, {{ChangeKind::set_depth, "C1", "", "", 1}, {ChangeKind::remove_cable, "no-such"}}, stock());
  ASSERT_FALSE(result.ok());
  EXPECT_EQ(result.error().message, "There is no cable \"no-such\" in the job to change.");
  EXPECT_EQ(before, small_job());
}

}  // namespace
}  // namespace duskwire::job
