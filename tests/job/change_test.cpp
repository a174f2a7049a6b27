// SPDX-License-Identifier: Apache-2.0
#include "job/change.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace duskwire::job {
namespace {

Change change(ChangeKind kind, const std::string& target, const std::string& text = "", const std::string& other = "",
              double number = 0) {
  return {kind, target, text, other, number};
}

template <class Thing>
Thing called(const std::string& id) {
  Thing thing;
  thing.id = id;
  return thing;
}

TransformerItem transformer_item(const std::string& id, std::uint32_t outputs, std::vector<double> taps_v) {
  auto item = called<TransformerItem>(id);
  item.output_count = outputs;
  item.taps_v = std::move(taps_v);
  return item;
}

Output output(const std::string& id, double tap_v) {
  auto output = called<Output>(id);
  output.tap_v = tap_v;
  return output;
}

Joint joint(const std::string& id, geometry::Point2 position) {
  auto joint = called<Joint>(id);
  joint.position = position;
  return joint;
}

Cable cable(const std::string& id, const std::string& item, const std::string& from, const std::string& to,
            std::optional<double> length_m) {
  auto cable = called<Cable>(id);
  cable.item = item;
  cable.from = from;
  cable.to = to;
  cable.length_m = length_m;
  return cable;
}

// T1-A --C1-- S1 --C2-- F1, and F2 on S1 by its own lead.
Job small_job() {
  Job job;
  job.catalogue.cables = {called<CableItem>("12awg-2")};
  job.catalogue.transformers = {transformer_item("150va", 1, {12, 13, 14, 15})};
  job.transformers = {called<Transformer>("T1")};
  job.transformers[0].item = "150va";
  job.transformers[0].position = geometry::Point2{0, 0};
  job.transformers[0].outputs = {output("T1-A", 13)};
  job.joints = {joint("S1", {10, 0}), joint("S2", {20, 5})};
  job.luminaires = {called<Luminaire>("F1"), called<Luminaire>("F2")};
  job.luminaires[1].joint = "S1";
  job.cables = {cable("C1", "12awg-2", "T1-A", "S1", {}), cable("C2", "12awg-2", "S1", "F1", 3)};
  job.cables[0].path = {{0, 0}, {10, 0}};
  return job;
}

Catalogue stock() {
  Catalogue stock;
  stock.cables = {called<CableItem>("10awg-2")};
  stock.transformers = {transformer_item("300va", 3, {11.5, 12.6, 14.4})};
  stock.connectors = {called<ConnectorItem>("hub")};
  stock.luminaires = {called<LuminaireItem>("path-2w")};
  return stock;
}

Job changed(const Change& one) {
  const Result<Job> result = apply(small_job(), {one}, stock());
  EXPECT_TRUE(result.ok()) << (result.ok() ? "" : result.error().message);
  return result.ok() ? result.value() : Job{};
}

ErrorCode refusal(const Change& one) {
  const Result<Job> result = apply(small_job(), {one}, stock());
  EXPECT_FALSE(result.ok());
  return result.ok() ? ErrorCode::unavailable : result.error().code;
}

TEST(Change, NoChangesLeaveTheJobAsItIs) { EXPECT_EQ(apply(small_job(), {}, stock()).value(), small_job()); }

TEST(Change, EachKindChangesItsFieldAndNothingElse) {
  const auto expect = [](const Change& one, auto edit) {
    Job expected = small_job();
    edit(expected);
    EXPECT_EQ(changed(one), expected) << static_cast<int>(one.kind);
  };
  expect(change(ChangeKind::set_tap, "T1-A", "", "", 14), [](Job& job) { job.transformers[0].outputs[0].tap_v = 14; });
  expect(change(ChangeKind::set_connector_count, "S1", "", "", 2), [](Job& job) { job.joints[0].connector_count = 2; });
  expect(change(ChangeKind::set_depth, "C1", "", "", 0.3), [](Job& job) { job.cables[0].depth_m = 0.3; });
  expect(change(ChangeKind::set_slack, "C1", "to", "", 0.5), [](Job& job) { job.cables[0].slack_to_m = 0.5; });
  expect(change(ChangeKind::set_slack, "C1", "from", "", 0.5), [](Job& job) { job.cables[0].slack_from_m = 0.5; });
  expect(change(ChangeKind::move_luminaire_joint, "F2", "", "S2"), [](Job& job) { job.luminaires[1].joint = "S2"; });
  expect(change(ChangeKind::remove_cable, "C1"), [](Job& job) { job.cables.erase(job.cables.begin()); });
  expect(change(ChangeKind::set_output_limit, "T1-A", "", "", 10),
         [](Job& job) { job.transformers[0].outputs[0].limit_a = 10; });
  expect(change(ChangeKind::set_mounting_height, "T1", "", "", 0.5),
         [](Job& job) { job.transformers[0].mounting_height_m = 0.5; });
  expect(change(ChangeKind::set_extension_cord, "T1", "", "", 1),
         [](Job& job) { job.transformers[0].extension_cord = true; });
  expect(change(ChangeKind::set_joint_kind, "S1", "", "", 2), [](Job& job) { job.joints[0].kind = JointKind::hub; });
  expect(change(ChangeKind::set_crossed, "C1", "", "", 1), [](Job& job) { job.cables[0].crossed = true; });
}

TEST(Change, ItemsThatTheJobLacksAreCopiedFromTheStock) {
  const Job thicker = changed(change(ChangeKind::set_cable_item, "C1", "10awg-2"));
  EXPECT_EQ(thicker.cables[0].item, "10awg-2");
  ASSERT_NE(find_cable(thicker.catalogue, "10awg-2"), nullptr);
  EXPECT_EQ(thicker.catalogue.cables.size(), 2u);
  const Job hub = changed(change(ChangeKind::set_connector, "S1", "hub"));
  EXPECT_EQ(hub.joints[0].connector, "hub");
  EXPECT_NE(find_connector(hub.catalogue, "hub"), nullptr);
  const Job lamp = changed(change(ChangeKind::set_luminaire_item, "F1", "path-2w"));
  EXPECT_EQ(lamp.luminaires[0].item, "path-2w");
  EXPECT_NE(find_luminaire(lamp.catalogue, "path-2w"), nullptr);
}

TEST(Change, AnItemThatTheJobHasIsNotReplacedByTheStocks) {
  Catalogue other = stock();
  other.cables.push_back(called<CableItem>("12awg-2"));
  other.cables.back().title = "the stock's";
  const Job job = apply(small_job(), {change(ChangeKind::set_cable_item, "C1", "12awg-2")}, other).value();
  EXPECT_EQ(job, small_job());
}

TEST(Change, AMovedEndTakesItsPathAlong) {
  const Job job = changed(change(ChangeKind::move_cable_end, "C1", "to", "S2"));
  EXPECT_EQ(job.cables[0].to, "S2");
  EXPECT_EQ(job.cables[0].path.back(), (geometry::Point2{20, 5}));
  EXPECT_EQ(job.cables[0].path.front(), (geometry::Point2{0, 0}));
}

TEST(Change, AMovedEndWithoutPositionLeavesThePath) {
  const Job job = changed(change(ChangeKind::move_cable_end, "C1", "to", "F1"));
  EXPECT_EQ(job.cables[0].to, "F1");
  EXPECT_EQ(job.cables[0].path, small_job().cables[0].path);
}

TEST(Change, ALargerTransformerKeepsItsOutputsOnTheNearestTapAndBringsItsOwn) {
  const Job job = changed(change(ChangeKind::set_transformer_item, "T1", "300va"));
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
  job.joints.push_back(called<Joint>("T1-B"));
  const Job larger = apply(job, {change(ChangeKind::set_transformer_item, "T1", "300va")}, stock()).value();
  EXPECT_EQ(larger.transformers[0].outputs[1].id, "T1-C");
  EXPECT_EQ(larger.transformers[0].outputs[2].id, "T1-D");
}

TEST(Change, AnAddedCableJoinsTwoPlaces) {
  const Job job = changed(change(ChangeKind::add_cable, "C3", "10awg-2", "T1-A S2", 21.5));
  ASSERT_EQ(job.cables.size(), 3u);
  EXPECT_EQ(job.cables[2], cable("C3", "10awg-2", "T1-A", "S2", 21.5));
}

TEST(Change, WhatIsNotThereIsNotFound) {
  for (int kind = 0; kind <= static_cast<int>(ChangeKind::set_crossed); ++kind) {
    const Change impossible = change(static_cast<ChangeKind>(kind), "nowhere", "from", "a b", 1);
    if (impossible.kind == ChangeKind::add_cable) continue;
    EXPECT_EQ(refusal(impossible), ErrorCode::not_found) << kind;
  }
  EXPECT_EQ(refusal(change(ChangeKind::set_cable_item, "C1", "no-such")), ErrorCode::not_found);
  EXPECT_EQ(refusal(change(ChangeKind::move_cable_end, "C1", "to", "no-such")), ErrorCode::not_found);
  EXPECT_EQ(refusal(change(ChangeKind::move_luminaire_joint, "F2", "", "F1")), ErrorCode::not_found);
  EXPECT_EQ(refusal(change(ChangeKind::add_cable, "C3", "10awg-2", "T1-A no-such", 1)), ErrorCode::not_found);
  EXPECT_EQ(refusal(change(ChangeKind::add_cable, "C3", "no-such", "T1-A S2", 1)), ErrorCode::not_found);
}

TEST(Change, ValuesThatNoJobMayHaveAreInvalid) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  for (const double bad : {nan, -1.0, std::numeric_limits<double>::infinity()}) {
    EXPECT_EQ(refusal(change(ChangeKind::set_tap, "T1-A", "", "", bad)), ErrorCode::invalid);
    EXPECT_EQ(refusal(change(ChangeKind::set_depth, "C1", "", "", bad)), ErrorCode::invalid);
    EXPECT_EQ(refusal(change(ChangeKind::set_slack, "C1", "to", "", bad)), ErrorCode::invalid);
    EXPECT_EQ(refusal(change(ChangeKind::set_output_limit, "T1-A", "", "", bad)), ErrorCode::invalid);
    EXPECT_EQ(refusal(change(ChangeKind::set_connector_count, "S1", "", "", bad)), ErrorCode::invalid);
    EXPECT_EQ(refusal(change(ChangeKind::set_joint_kind, "S1", "", "", bad)), ErrorCode::invalid);
    EXPECT_EQ(refusal(change(ChangeKind::add_cable, "C3", "12awg-2", "T1-A S2", bad)), ErrorCode::invalid);
  }
  EXPECT_EQ(refusal(change(ChangeKind::set_mounting_height, "T1", "", "", nan)), ErrorCode::invalid);
  EXPECT_EQ(refusal(change(ChangeKind::set_joint_kind, "S1", "", "", 4)), ErrorCode::invalid);
  EXPECT_EQ(refusal(change(ChangeKind::set_slack, "C1", "middle", "", 1)), ErrorCode::invalid);
  EXPECT_EQ(refusal(change(ChangeKind::move_cable_end, "C1", "to", "T1-A")), ErrorCode::invalid);
  EXPECT_EQ(refusal(change(ChangeKind::add_cable, "C1", "12awg-2", "T1-A S2", 1)), ErrorCode::invalid);
  EXPECT_EQ(refusal(change(ChangeKind::add_cable, "C3", "12awg-2", "T1-A", 1)), ErrorCode::invalid);
  EXPECT_EQ(refusal(change(ChangeKind::add_cable, "C3", "12awg-2", "S2 S2", 1)), ErrorCode::invalid);
  EXPECT_EQ(refusal(change(static_cast<ChangeKind>(99), "C1")), ErrorCode::invalid);
}

TEST(Change, LaterChangesSeeEarlierOnes) {
  const Result<Job> result = apply(
      small_job(),
      {change(ChangeKind::set_transformer_item, "T1", "300va"),
       change(ChangeKind::move_cable_end, "C1", "from", "T1-B"), change(ChangeKind::set_tap, "T1-B", "", "", 14.4)},
      stock());
  ASSERT_TRUE(result.ok());
  EXPECT_EQ(result.value().cables[0].from, "T1-B");
  EXPECT_EQ(result.value().transformers[0].outputs[1].tap_v, 14.4);
}

TEST(Change, OneBadChangeUndoesAll) {
  const Job before = small_job();
  const Result<Job> result = apply(
      before, {change(ChangeKind::set_depth, "C1", "", "", 1), change(ChangeKind::remove_cable, "no-such")}, stock());
  ASSERT_FALSE(result.ok());
  EXPECT_EQ(result.error().message, "There is no cable \"no-such\" in the job to change.");
  EXPECT_EQ(before, small_job());
}

}  // namespace
}  // namespace duskwire::job
