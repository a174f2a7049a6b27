// SPDX-License-Identifier: Apache-2.0
#include "study/night_plan.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "study/lit_jobs.hpp"
#include "study/lit_scene.hpp"

namespace duskwire::study {
namespace {

NightPlan plan_of(const job::Job& job, double cell_m = 0.25) {
  const light::LitScene scene(lit_scene(job).scene);
  return night_plan(job, GardenLight(scene), cell_m);
}

job::Job one_downlight() {
  job::Job job = tests::bare_lot();
  job.plan.property_line = tests::rectangle(-6, -6, 6, 6);
  tests::place_lamp(job, "D1", "downlight-60", {0, 0, 3}).tilt_deg = -90;
  return job;
}

float at(const NightPlan& plan, double x_m, double y_m) {
  const auto column = static_cast<std::size_t>((x_m - plan.origin.x_m) / plan.cell_m);
  const auto row = static_cast<std::size_t>((y_m - plan.origin.y_m) / plan.cell_m);
  return plan.lx.at(row * plan.columns + column);
}

TEST(NightPlan, CoversTheLotAndIsBrightestBelowTheLamp) {
  const NightPlan plan = plan_of(one_downlight());
  EXPECT_LE(plan.origin.x_m, -6);
  EXPECT_GE(plan.origin.x_m + plan.columns * plan.cell_m, 6);
  EXPECT_EQ(plan.lx.size(), std::size_t{plan.columns} * plan.rows);
  EXPECT_NEAR(static_cast<double>(at(plan, 0.05, 0.05)), plan.maximum_lx, 0.02 * plan.maximum_lx);
  EXPECT_GT(at(plan, 0, 0), at(plan, 2, 0));
}

TEST(NightPlan, LinesOfEqualLightRunRoundTheLamp) {
  const NightPlan plan = plan_of(one_downlight(), 0.1);
  ASSERT_FALSE(plan.contours.empty());
  const LightContour* ten = nullptr;
  for (const LightContour& contour : plan.contours) {
    if (contour.lx == 10) ten = &contour;
  }
  ASSERT_NE(ten, nullptr);
  ASSERT_EQ(ten->lines.size(), 1u);
  const double radius_m = std::hypot(ten->lines[0][0].x_m, ten->lines[0][0].y_m);
  for (const geometry::Point2 point : ten->lines[0]) EXPECT_NEAR(std::hypot(point.x_m, point.y_m), radius_m, 0.02);
}

TEST(NightPlan, BuildingsAreNoGroundAndCastShadows) {
  job::Job job = one_downlight();
  tests::add_area(job, "shed", job::GroundKind::building, tests::rectangle(1, -1, 2, 1), 2.5);
  const NightPlan plan = plan_of(job);
  EXPECT_LT(at(plan, 1.5, 0), 0);
  EXPECT_EQ(at(plan, 2.5, 0), 0);
  EXPECT_GT(at(plan, -2.5, 0), 0);
}

TEST(NightPlan, AHugePlanIsDrawnCoarser) {
  job::Job job = one_downlight();
  job.plan.property_line = tests::rectangle(0, 0, 400, 400);
  const NightPlan plan = plan_of(job);
  EXPECT_LE(plan.lx.size(), 251'000u);
  EXPECT_GT(plan.cell_m, 0.5);
}

}  // namespace
}  // namespace duskwire::study
