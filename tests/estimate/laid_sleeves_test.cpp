// SPDX-License-Identifier: Apache-2.0
#include "estimate/laid_sleeves.hpp"

#include <gtest/gtest.h>

namespace duskwire::estimate {
namespace {

job::Sleeve sleeve(const char* id, geometry::Polyline path) {
  job::Sleeve made;
  made.id = id;
  made.path = std::move(path);
  return made;
}

// One sleeve of 4 m along x, from 8 to 12.
job::Plan plan_with_sleeve() {
  job::Plan plan;
  plan.sleeves = {sleeve("under-drive", {{8, 0}, {12, 0}})};
  return plan;
}

job::Cable along(geometry::Polyline path) {
  job::Cable cable;
  cable.path = std::move(path);
  return cable;
}

std::size_t serving(const job::Plan& plan, const job::Cable& cable, const std::vector<std::string>& to_lay = {}) {
  return LaidSleeves(plan, to_lay).serving(cable).size();
}

TEST(LaidSleeves, ServeACableThatRunsAlongTheWholeSleeve) {
  const job::Plan plan = plan_with_sleeve();
  EXPECT_EQ(serving(plan, along({{0, 0.3}, {20, 0.3}})), 1u);
  EXPECT_EQ(serving(plan, along({{20, 0}, {0, 0}})), 1u) << "from the other side";
  EXPECT_EQ(serving(plan, along({{0, 0.5}, {20, 0.5}})), 0u) << "beside it";
  EXPECT_EQ(serving(plan, along({{0, 0}, {10, 0}})), 0u) << "ends halfway";
  EXPECT_EQ(serving(plan, along({{10, -5}, {10, 5}})), 0u) << "across it";
}

TEST(LaidSleeves, ASleeveShorterThanItsReachIsNotMistakenForACrossing) {
  job::Plan plan;
  plan.sleeves = {sleeve("stub", {{8, 0}, {8.5, 0}})};
  EXPECT_EQ(serving(plan, along({{8.25, -5}, {8.25, 5}})), 0u);
  EXPECT_EQ(serving(plan, along({{0, 0}, {20, 0}})), 1u);
}

TEST(LaidSleeves, ServeWhoNamesThemAndNobodyBeforeTheyAreLaid) {
  const job::Plan plan = plan_with_sleeve();
  job::Cable cable = along({{0, 0}, {10, 0}});
  cable.sleeve = "under-drive";
  EXPECT_EQ(serving(plan, cable), 1u);
  EXPECT_EQ(serving(plan, cable, {"under-drive"}), 0u);
  EXPECT_EQ(LaidSleeves(plan, {}).named("under-drive"), &plan.sleeves[0]);
  EXPECT_EQ(LaidSleeves(plan, {"under-drive"}).named("under-drive"), nullptr);
  EXPECT_EQ(LaidSleeves(plan, {}).named("elsewhere"), nullptr);
}

TEST(LaidSleeves, EndWhereTheyEndInSoftGroundAndALittleLaterInHard) {
  const job::Plan plan = plan_with_sleeve();
  const std::vector<const job::Sleeve*> sleeves{&plan.sleeves[0]};
  for (const bool hard : {false, true}) {
    EXPECT_TRUE(runs_through(sleeves, {8.01, 0.39}, hard));
    EXPECT_TRUE(runs_through(sleeves, {11.99, 0}, hard));
    EXPECT_FALSE(runs_through(sleeves, {10, 0.41}, hard));
    EXPECT_EQ(runs_through(sleeves, {7.8, 0}, hard), hard);
    EXPECT_EQ(runs_through(sleeves, {12.2, 0.1}, hard), hard);
    EXPECT_FALSE(runs_through(sleeves, {12.5, 0}, hard));
  }
}

TEST(LaidSleeves, ABentSleeveIsOneSleeve) {
  job::Plan plan;
  plan.sleeves = {sleeve("bent", {{8, 0}, {10, 0}, {10, 2}})};
  EXPECT_EQ(serving(plan, along({{0, 0}, {10, 0}, {10, 9}})), 1u);
  const std::vector<const job::Sleeve*> sleeves{&plan.sleeves[0]};
  EXPECT_TRUE(runs_through(sleeves, {10.1, -0.1}, false)) << "outside the bend";
  EXPECT_DOUBLE_EQ(length_m(plan.sleeves[0].path), 4);
}

}  // namespace
}  // namespace duskwire::estimate
