// SPDX-License-Identifier: Apache-2.0
#include "study/network_shape.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <optional>

#include "study/wired_jobs.hpp"

namespace duskwire::study {
namespace {

using tests::add_cable;
using tests::add_joint;
using tests::add_lamp;

// The one trouble of that kind, by value; nothing where there is none or more than one.
std::optional<Trouble> only(const Built& built, TroubleKind kind) {
  std::optional<Trouble> found;
  for (const Trouble& trouble : built.troubles) {
    if (trouble.kind != kind) continue;
    if (found) return std::nullopt;
    found = trouble;
  }
  return found;
}

bool none_of_kind(const Built& built, TroubleKind kind) {
  return std::none_of(built.troubles.begin(), built.troubles.end(),
                      [&](const Trouble& trouble) { return trouble.kind == kind; });
}

// A -- J1 -- J2 -- J3 and back from J3 to A.
job::Job ring() {
  job::Job job = tests::plain_job();
  tests::add_transformer(job, "T", "tr-300", "T-A", 13);
  std::string previous = "T-A";
  for (const char* id : {"J1", "J2", "J3"}) {
    add_joint(job, id);
    add_cable(job, std::string("C-") + id, "12awg-2", previous, id, 5);
    add_lamp(job, std::string("L-") + id, "path-3va").joint = id;
    previous = id;
  }
  add_cable(job, "closing", "12awg-2", "J3", "T-A", 5);
  return job;
}

TEST(NetworkShape, DistanceIsTheShortestWayAlongTheCables) {
  const job::Job job = ring();
  const Built built = build(job);
  EXPECT_DOUBLE_EQ(built.supply[built.node_of("J1")].distance_m, 5);
  EXPECT_DOUBLE_EQ(built.supply[built.node_of("J2")].distance_m, 10);
  EXPECT_DOUBLE_EQ(built.supply[built.node_of("J3")].distance_m, 5) << "by the closing cable";
  EXPECT_DOUBLE_EQ(built.supply[built.node_of("L-J2")].distance_m, 11) << "and its lead of 1 m";
  EXPECT_EQ(built.supply[built.node_of("L-J2")].output, 0u);
}

TEST(NetworkShape, SoundLoopIsNoTrouble) {
  const job::Job job = ring();
  EXPECT_TRUE(build(job).troubles.empty());
}

TEST(NetworkShape, LoopWithOneCrossedCableIsADeadShortAtThatCable) {
  job::Job job = ring();
  job.cables[1].crossed = true;
  const Built built = build(job);
  const auto trouble = only(built, TroubleKind::crossed_loop);
  ASSERT_TRUE(trouble);
  EXPECT_EQ(id_of(job, trouble->spot), "C-J2");
  EXPECT_TRUE(built.dead_short[built.node_of("L-J1")]);
}

TEST(NetworkShape, LoopCrossedTwiceIsSound) {
  job::Job job = ring();
  job.cables[1].crossed = job.cables[3].crossed = true;
  EXPECT_TRUE(none_of_kind(build(job), TroubleKind::crossed_loop));
}

TEST(NetworkShape, CrossedCableOutsideALoopIsNoTrouble) {
  job::Job job = ring();
  job.cables.pop_back();
  job.cables[1].crossed = true;
  const Built built = build(job);
  EXPECT_TRUE(none_of_kind(built, TroubleKind::crossed_loop));
  EXPECT_FALSE(built.dead_short[built.node_of("L-J1")]);
}

TEST(NetworkShape, CableBetweenTwoOutputsIsTold) {
  job::Job job = ring();
  job.transformers[0].item = "tr-600";
  tests::add_output(job, "T-B", 13);
  job.cables.back().to = "T-B";
  const auto trouble = only(build(job), TroubleKind::outputs_joined);
  ASSERT_TRUE(trouble);
  EXPECT_EQ(id_of(job, trouble->spot), "closing");
  EXPECT_EQ(trouble->detail, "T-A and T-B");
}

TEST(NetworkShape, IslandIsToldOnceWithItsLamps) {
  job::Job job = ring();
  job.cables.erase(job.cables.begin());  // feeds J1 no more ...
  job.cables.pop_back();                 // ... nor J3
  const Built built = build(job);
  const auto trouble = only(built, TroubleKind::island);
  ASSERT_TRUE(trouble);
  EXPECT_EQ(id_of(job, trouble->spot), "C-J2");
  EXPECT_EQ(trouble->detail, "L-J1, L-J2, L-J3");
  EXPECT_TRUE(none_of_kind(built, TroubleKind::lamp_no_supply)) << "the island speaks for them";
  EXPECT_EQ(built.supply[built.node_of("L-J1")].output, none);
}

TEST(NetworkShape, LampThatHangsOnNothingIsTold) {
  job::Job job = ring();
  add_lamp(job, "lost", "path-3va");
  const auto trouble = only(build(job), TroubleKind::lamp_no_supply);
  ASSERT_TRUE(trouble);
  EXPECT_EQ(id_of(job, trouble->spot), "lost");
}

TEST(NetworkShape, LampWithLeadAndCableIsFedTwice) {
  job::Job job = ring();
  add_cable(job, "second", "12awg-2", "J1", "L-J3", 9);
  const auto trouble = only(build(job), TroubleKind::lamp_fed_twice);
  ASSERT_TRUE(trouble);
  EXPECT_EQ(id_of(job, trouble->spot), "L-J3");
}

TEST(NetworkShape, CablesThatMeetAtALampWantAJointExceptInABollard) {
  job::Job job = ring();
  add_lamp(job, "K1", "path-3va");
  add_lamp(job, "K2", "path-3va");
  add_lamp(job, "K3", "wash-9va");
  job.catalogue.luminaires[2].kind = job::LuminaireKind::bollard;
  add_cable(job, "k1", "12awg-2", "J1", "K1", 3);
  add_cable(job, "k2", "12awg-2", "K1", "K3", 3);
  add_cable(job, "k3", "12awg-2", "K3", "K2", 3);
  const auto trouble = only(build(job), TroubleKind::cables_at_lamp);
  ASSERT_TRUE(trouble);
  EXPECT_EQ(trouble->detail, "K1") << "K2 is an end, K3 a bollard";
}

TEST(NetworkShape, ParentLeadsToTheOutput) {
  const job::Job job = tests::two_splice_site();
  const Built built = build(job);
  std::vector<std::string> way;
  for (std::uint32_t node = built.node_of("F8"); node != none; node = built.parent_node(node)) {
    way.push_back(id_of(job, built.spot_of_node(node)));
  }
  EXPECT_EQ(way, (std::vector<std::string>{"F8", "S2", "S1", "T-A"}));
}

}  // namespace
}  // namespace duskwire::study
