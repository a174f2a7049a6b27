// SPDX-License-Identifier: Apache-2.0
#include "study/spill.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "study/levels.hpp"
#include "study/lit_jobs.hpp"
#include "study/lit_scene.hpp"

namespace duskwire::study {
namespace {

light::Distribution lambertian(double peak_cd) {
  light::Distribution table;
  table.horizontal_deg = {0};
  for (int gamma = 0; gamma <= 90; ++gamma) {
    table.vertical_deg.push_back(gamma);
    table.intensity_cd.push_back(peak_cd * std::cos(gamma * std::numbers::pi / 180));
  }
  return table;
}

TEST(Spill, UpwardShareIsNoneStraightDownHalfLevelAndAllStraightUp) {
  const light::Distribution table = lambertian(1000);
  light::Lamp lamp;
  lamp.aim = {0, 0, -1};
  EXPECT_NEAR(upward_share(table, lamp), 0, 1e-9);
  lamp.aim = {1, 0, 0};
  lamp.zero = {0, 0, 1};
  EXPECT_NEAR(upward_share(table, lamp), 0.5, 1e-6);
  lamp.aim = {0, 0, 1};
  lamp.zero = {1, 0, 0};
  EXPECT_NEAR(upward_share(table, lamp), 1, 1e-9);
}

// A Lambertian lamp tilted by t from straight down sends (1 - cos t) / 2 of its light above the level: the projected
// solid angle of the part of its hemisphere beyond a plane at that angle.
TEST(Spill, UpwardShareOfATiltedLambertianIsHalfOfOneLessItsCosine) {
  const light::Distribution table = lambertian(1000);
  for (const double tilt_deg : {30.0, 60.0, 120.0}) {
    const double tilt = tilt_deg * std::numbers::pi / 180;
    light::Lamp lamp;
    lamp.aim = {std::sin(tilt), 0, -std::cos(tilt)};
    lamp.zero = {std::cos(tilt), 0, std::sin(tilt)};
    EXPECT_NEAR(upward_share(table, lamp), (1 - std::cos(tilt)) / 2, 0.005);
  }
}

// A lamp that looks level at the line from 4 m: I0 / d^2 on the plane in it.
TEST(Spill, LightThatLeavesIsCaughtOnThePlaneInTheLine) {
  job::Job job = tests::bare_lot();
  job.plan.property_line = tests::rectangle(0, 0, 10, 10);
  job::Luminaire& lamp = tests::place_lamp(job, "F1", "bullet-36", {6, 5.25, 0.25});
  lamp.azimuth_deg = 90;
  lamp.tilt_deg = 1e-6;
  const LitJob lit = lit_scene(job);
  const double peak_cd = intensity_cd(lit.scene.distributions[0], 0, 0);
  const Levels found =
      levels(job, {}, {.targets = "", .property_line_limit_lx = 1.0, .window_limit_lx = {}, .plan = false});
  ASSERT_EQ(found.property_line.size(), 4u);
  const SpillEdge& east = found.property_line[1];
  EXPECT_NEAR(east.maximum_lx, peak_cd / 16, 0.01 * peak_cd / 16);
  EXPECT_NEAR(east.maximum_at.x_m, 10, 0.01);
  EXPECT_NEAR(east.maximum_at.y_m, 5.25, 0.01);
  EXPECT_EQ(east.lamp, "F1");
  EXPECT_NEAR(east.lamp_lx, east.maximum_lx, 1e-6);
  EXPECT_NEAR(found.property_line[3].maximum_lx, 0, 1e-6);  // behind the lamp
}

TEST(Spill, TheLimitAtTheLineIsSettable) {
  job::Job job = tests::bare_lot();
  job.plan.property_line = tests::rectangle(0, 0, 10, 10);
  job::Luminaire& lamp = tests::place_lamp(job, "F1", "bullet-36", {6, 5, 0.25});
  lamp.azimuth_deg = 90;
  lamp.tilt_deg = 1;
  const auto told = [&](const LevelsOptions& options) {
    const Levels found = levels(job, {}, options);
    std::size_t count = 0;
    for (const Finding& finding : found.findings) count += finding.id == "light/property-line";
    return count;
  };
  LevelsOptions options;
  options.plan = false;
  options.property_line_limit_lx = 1;
  EXPECT_EQ(told(options), 1u);
  options.property_line_limit_lx = 1000;
  EXPECT_EQ(told(options), 0u);
  options.property_line_limit_lx.reset();
  job.light.property_line_limit_lx = 500;
  EXPECT_EQ(told(options), 0u);
  job.light.property_line_limit_lx = 2;
  EXPECT_EQ(told(options), 1u);
}

TEST(Spill, AWindowCatchesTheLevelPartOfALampsLight) {
  job::Job job = tests::bare_lot();
  job::Luminaire& lamp = tests::place_lamp(job, "F1", "bullet-36", {0, 0, 0});
  lamp.azimuth_deg = 90;
  lamp.tilt_deg = std::atan2(3, 4) * 180 / std::numbers::pi;
  tests::add_eye(job, "bedroom", job::ViewPointKind::neighbour_window, {4, 0, 3});
  const LitJob lit = lit_scene(job);
  const double peak_cd = intensity_cd(lit.scene.distributions[0], 0, 0);
  const Levels found =
      levels(job, {}, {.targets = "", .property_line_limit_lx = {}, .window_limit_lx = 1.0, .plan = false});
  ASSERT_EQ(found.windows.size(), 1u);
  EXPECT_NEAR(found.windows[0].lx, peak_cd / 25 * 0.8, 0.01 * peak_cd / 25);
  EXPECT_EQ(found.windows[0].lamp, "F1");
  EXPECT_TRUE(found.blocks_quote);
}

}  // namespace
}  // namespace duskwire::study
