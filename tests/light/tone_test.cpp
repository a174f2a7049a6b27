// SPDX-License-Identifier: Apache-2.0
#include "light/tone.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "light/colour.hpp"

namespace duskwire::light {
namespace {

TEST(Tone, CurveRisesFromBlackToWhiteAllTheWay) {
  EXPECT_EQ(curve(0), 0);
  EXPECT_EQ(curve(-1), 0);
  double before = 0;
  for (double exposed = 1e-4; exposed < 14; exposed *= 1.02) {
    EXPECT_GT(curve(exposed), before) << exposed;
    before = curve(exposed);
  }
  EXPECT_NEAR(curve(14), 1, 1e-12);
  EXPECT_EQ(curve(1e6), 1);
}

TEST(Tone, TableIsTheCurveWithinOneStepAndRises) {
  const ToneTable table;
  int before = 0;
  for (double exposed = 1e-5; exposed < 100; exposed *= 1.003) {
    const int byte = table(static_cast<float>(exposed));
    EXPECT_NEAR(byte, 255 * srgb_encoded(curve(exposed)), 1) << exposed;
    EXPECT_GE(byte, before) << exposed;
    before = byte;
  }
  EXPECT_EQ(table(0), 0);
  EXPECT_EQ(table(-1), 0);
  EXPECT_EQ(table(INFINITY), 255);
  EXPECT_EQ(table(NAN), 0);
}

TEST(Tone, CameraPutsTheMeanUnderMiddleGrey) {
  EXPECT_NEAR(exposure_per_cd_m2({.camera_share = 1}, 0.5) * 0.5, 0.12, 1e-12);
}

// By hand after Ward (1994): adapted to 0.5 cd/m2, ((1.219 + 50^0.4) / (1.219 + 0.5^0.4))^2.5 / 100.
TEST(Tone, EyeSeesTheSameContrastOnTheDisplay) {
  EXPECT_NEAR(exposure_per_cd_m2({.camera_share = 0}, 0.5), 0.16046, 0.0005);
  // A darker garden is adapted to, yet not all the way: it stays darker on the display.
  const double dim = 0.05 * exposure_per_cd_m2({.camera_share = 0}, 0.05);
  const double bright = 0.5 * exposure_per_cd_m2({.camera_share = 0}, 0.5);
  EXPECT_LT(dim, bright);
  EXPECT_GT(dim, bright / 10);
}

TEST(Tone, SharesLieBetweenAndStopsDouble) {
  const double eye = exposure_per_cd_m2({.camera_share = 0}, 0.3);
  const double camera = exposure_per_cd_m2({.camera_share = 1}, 0.3);
  const double between = exposure_per_cd_m2({.camera_share = 0.5}, 0.3);
  EXPECT_NEAR(between, std::sqrt(eye * camera), 1e-12);
  EXPECT_NEAR(exposure_per_cd_m2({.camera_share = 0.5, .exposure_stops = 1}, 0.3), 2 * between, 1e-12);
}

TEST(Tone, QuickLogarithmIsAsGoodAsItSays) {
  for (float x = 1e-30F; x < 1e30F; x *= 1.0137F) EXPECT_NEAR(quick_log(x), std::log(x), 3e-5) << x;
  EXPECT_LT(quick_log(0), -87);
}

TEST(Tone, EyeLosesColourInTheDarkAndACameraDoesNot) {
  EXPECT_EQ(colour_kept(0.001, 1), 1);
  EXPECT_EQ(colour_kept(0.001, 0), 0);
  EXPECT_EQ(colour_kept(0, 0.25F), 0.25F);
  EXPECT_EQ(colour_kept(10, 0), 1);
  EXPECT_NEAR(colour_kept(static_cast<float>(std::sqrt(0.005 * 5)), 0), 0.5, 1e-5);
}

}  // namespace
}  // namespace duskwire::light
