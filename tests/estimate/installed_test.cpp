// SPDX-License-Identifier: Apache-2.0
#include "estimate/installed.hpp"

#include <gtest/gtest.h>

#include <limits>

#include "estimate/jobs.hpp"

namespace duskwire::estimate {
namespace {

// The garden of the acceptance example with its ground: of the 45 m of trunk 25 m under lawn, all else under mulch.
job::Job garden_on_its_ground() {
  job::Job job = tests::two_hub_garden();
  job::Area lawn;
  lawn.kind = job::GroundKind::lawn;
  lawn.outline = {{0, -1}, {25, -1}, {25, 1}, {0, 1}};
  job.plan.areas = {lawn};
  for (job::Cable& cable : job.cables) cable.ground = job::GroundKind::bed;
  job.cables[0].path = {{0, 0}, {30, 0}};
  return job;
}

// Acceptance example of the price: 20 m of mulch at 60 m/h, 25 m of lawn at 9 m/h, 57 m of leads at 60 m/h, which is
// 0.333 + 2.778 + 0.950 h (rates: common practice, no source).
TEST(InstalledCost, TwoHubGardenTakesFourHoursOfTrench) {
  const InstalledCost cost = installed_cost(garden_on_its_ground(), {}, {});
  EXPECT_NEAR(cost.trench_min / 60, 4.0611, 1e-4);
  EXPECT_NEAR(cost.trench_m, 45 + 57, 1e-9);
}

// The list's own 124814 minor units and 432.5 minutes: materials_test.cpp. At 38.00 an hour the 676.17 minutes in all
// cost 428.24.
TEST(InstalledCost, TwoHubGardenCostsItsMaterialAndItsHours) {
  InstallRates rates;
  rates.labour_minor_per_h = 3800;
  const InstalledCost cost = installed_cost(garden_on_its_ground(), {}, rates);
  EXPECT_EQ(cost.material_minor, 124814);
  EXPECT_NEAR(cost.labour_min, 432.5 + 20 + 25 * 60 / 9.0 + 57, 1e-9);
  EXPECT_EQ(cost.cost_minor, 124814 + 42824);
}

TEST(InstalledCost, TwoHubGardenHas111MetresOfTwoCablesAndTwoJoints) {
  const InstalledCost cost = installed_cost(garden_on_its_ground(), {}, {});
  EXPECT_NEAR(cost.cable_m, 46.9 + 64.2, 1e-9);
  EXPECT_EQ(cost.cable_types, 2u);
  EXPECT_EQ(cost.joints, 2u);
}

TEST(InstalledCost, AJointWhereNothingIsJoinedIsNotCounted) {
  job::Job job = garden_on_its_ground();
  job.joints.emplace_back().id = "spare";
  EXPECT_EQ(installed_cost(job, {}, {}).joints, 2u);
}

// A drive over 3 m of the lawn, and 4 m of sleeve, which is 2.40 a metre with half a minute of the list.
TEST(InstalledCost, ASleeveIsBoughtAndItsCrossingDugOnlyWhereItIsToBeLaid) {
  job::Job job = garden_on_its_ground();
  job::Area drive;
  drive.kind = job::GroundKind::drive;
  drive.outline = {{10, -1}, {13, -1}, {13, 1}, {10, 1}};
  job.plan.areas.push_back(drive);
  job::Sleeve sleeve;
  sleeve.id = "under-drive";
  sleeve.path = {{9.5, 0}, {13.5, 0}};
  job.plan.sleeves = {sleeve};
  job.cables[0].sleeve = "under-drive";
  const InstalledCost laid = installed_cost(job, {}, {});
  const InstalledCost to_lay = installed_cost(job, {}, {}, {"under-drive"});
  EXPECT_EQ(to_lay.material_minor - laid.material_minor, 4 * 240);
  EXPECT_NEAR(to_lay.trench_min - laid.trench_min, 3 * 90 + 1 * 60 / 9.0 - 4 * 0.5, 0.1 * 60 / 9.0);
  EXPECT_NEAR(to_lay.labour_min - laid.labour_min, to_lay.trench_min - laid.trench_min + 4 * 0.5, 1e-9);
  EXPECT_NEAR(to_lay.trench_m - laid.trench_m, 4, 0.1);
}

TEST(InstalledCost, OfNothingIsNothing) {
  const InstalledCost cost = installed_cost({}, tests::test_catalogue(), {});
  EXPECT_EQ(cost.cost_minor, 0);
  EXPECT_EQ(cost.labour_min, 0);
  EXPECT_EQ(cost.cable_types, 0u);
}

TEST(InstalledCost, BeyondTheNumbersItStopsAtTheirEnd) {
  InstallRates rates;
  rates.labour_minor_per_h = std::numeric_limits<std::int64_t>::max();
  EXPECT_EQ(installed_cost(garden_on_its_ground(), {}, rates).cost_minor, std::numeric_limits<std::int64_t>::max());
}

}  // namespace
}  // namespace duskwire::estimate
