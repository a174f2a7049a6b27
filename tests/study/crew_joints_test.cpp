// SPDX-License-Identifier: Apache-2.0
#include "study/crew_joints.hpp"

#include <gtest/gtest.h>

#include "study/check.hpp"
#include "study/wired_jobs.hpp"

namespace duskwire::study {
namespace {

std::vector<CrewJoint> joints_of(const job::Job& job) {
  return crew_joints(job, job.catalogue, estimate::materials(job, job.catalogue),
                     check(job, {}, job.catalogue, {.cures = false}));
}

TEST(CrewJoints, ListEveryWireWithTheSupplyFirst) {
  job::Job job = tests::two_splice_site();
  std::swap(job.cables[0].from, job.cables[0].to);  // drawn towards the transformer
  const auto joints = joints_of(job);
  ASSERT_EQ(joints.size(), 2u);
  const CrewJoint& hub = joints[0];
  EXPECT_EQ(hub.kind, job::JointKind::hub);
  EXPECT_EQ(hub.wires_per_conductor, 6u);
  ASSERT_EQ(hub.wires.size(), 6u);
  EXPECT_EQ(hub.wires[0].id, "run-1");
  EXPECT_EQ(hub.wires[0].other, "T-A");
  EXPECT_TRUE(hub.wires[0].towards_supply);
  for (std::size_t w = 1; w < hub.wires.size(); ++w) EXPECT_FALSE(hub.wires[w].towards_supply);
  EXPECT_NEAR(hub.nominal_v, 11.88, 0.03);
  EXPECT_EQ(hub.output, "T-A");
  EXPECT_EQ(hub.pieces, 2u) << "one for each conductor";
  EXPECT_EQ(hub.spare_ports, 0u) << "gel takes six";
}

TEST(CrewJoints, ShowThePortThatStaysFree) {
  const auto joints = joints_of(tests::chained_garden(1, 3, 13));
  ASSERT_EQ(joints.size(), 3u);
  EXPECT_EQ(joints[1].kind, job::JointKind::branch);
  EXPECT_EQ(joints[1].spare_ports, 3u);
  EXPECT_EQ(joints[2].kind, job::JointKind::end_of_run);
  EXPECT_EQ(joints[2].spare_ports, 4u);
}

TEST(CrewJoints, LieAsDeepAsTheDeepestCableUnlessRecorded) {
  job::Job job = tests::two_splice_site();
  job.cables[0].depth_m = 0.2;
  job.cables[1].depth_m = 0.3;
  EXPECT_EQ(joints_of(job)[0].depth_m, 0.3);
  job.joints[0].as_built.emplace();
  job.joints[0].as_built->depth_m = 0.17;
  EXPECT_EQ(joints_of(job)[0].depth_m, 0.17);
}

}  // namespace
}  // namespace duskwire::study
