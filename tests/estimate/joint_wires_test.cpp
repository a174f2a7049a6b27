// SPDX-License-Identifier: Apache-2.0
#include "estimate/joint_wires.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "estimate/jobs.hpp"

namespace duskwire::estimate {
namespace {

TEST(JointWires, HubHasOneWirePerCableEnd) {
  const auto wires = joint_wires(tests::two_hub_garden(), "S1");
  ASSERT_EQ(wires.size(), 6u);
  EXPECT_EQ(wires[0].id, "run-1");
  EXPECT_EQ(wires[0].owner, WireOwner::cable_to);
  EXPECT_DOUBLE_EQ(*wires[0].area_mm2, 3.309);
  EXPECT_EQ(wires[1].owner, WireOwner::cable_from);
  EXPECT_DOUBLE_EQ(*wires[5].area_mm2, 2.081);
  EXPECT_EQ(joint_kind(wires), job::JointKind::hub);
}

TEST(JointWires, LeadOfALuminaireLandsWithItsOwnArea) {
  job::Job job = tests::two_hub_garden();
  job::Luminaire luminaire;
  luminaire.id = "F9";
  luminaire.item = "path-3va";
  luminaire.joint = "S2";
  job.luminaires.push_back(luminaire);
  const auto wires = joint_wires(job, "S2");
  ASSERT_EQ(wires.size(), 6u);
  EXPECT_EQ(wires.back().owner, WireOwner::luminaire_lead);
  EXPECT_DOUBLE_EQ(*wires.back().area_mm2, 0.82);
}

TEST(JointWires, UnknownItemLeavesTheAreaOpen) {
  job::Job job = tests::two_hub_garden();
  job.cables[0].item = "gone";
  EXPECT_FALSE(joint_wires(job, "S1")[0].area_mm2);
}

TEST(JointWires, CableWithBothEndsHereIsTwoWires) {
  job::Job job = tests::two_hub_garden();
  job.cables[1].to = "S1";
  EXPECT_EQ(joint_wires(job, "S1").size(), 7u);
}

TEST(JointWires, OneByOneAndAllAtOnceAgree) {
  for (std::uint32_t seed = 0; seed < 100; ++seed) {
    const job::Job job = tests::random_job(seed);
    const auto all = all_joint_wires(job);
    ASSERT_EQ(all.size(), job.joints.size());
    for (std::size_t i = 0; i < all.size(); ++i) {
      const auto one = joint_wires(job, job.joints[i].id);
      ASSERT_EQ(all[i].size(), one.size()) << seed;
      for (std::size_t k = 0; k < one.size(); ++k) {
        EXPECT_EQ(all[i][k].id, one[k].id) << seed;
        EXPECT_EQ(all[i][k].owner, one[k].owner) << seed;
        EXPECT_EQ(all[i][k].area_mm2, one[k].area_mm2) << seed;
      }
    }
  }
}

TEST(JointKind, FollowsTheWires) {
  const JointWire end{2.0, WireOwner::cable_to, "c"};
  const JointWire lead{0.8, WireOwner::luminaire_lead, "f"};
  EXPECT_FALSE(joint_kind({}));
  EXPECT_FALSE(joint_kind({end}));
  EXPECT_EQ(joint_kind({end, end}), job::JointKind::in_line);
  EXPECT_EQ(joint_kind({end, lead}), job::JointKind::end_of_run);
  EXPECT_EQ(joint_kind({lead, lead}), job::JointKind::in_line);
  EXPECT_EQ(joint_kind({end, end, lead}), job::JointKind::branch);
  EXPECT_EQ(joint_kind({end, end, lead, lead}), job::JointKind::hub);
}

}  // namespace
}  // namespace duskwire::estimate
