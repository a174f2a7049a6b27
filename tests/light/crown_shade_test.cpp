// SPDX-License-Identifier: Apache-2.0
// Light through crowns against the law in words: transmittance^(chord / full width in that direction).
#include "light/crown_shade.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace duskwire::light {
namespace {

using geometry::Point3;

const Crown ball{{0, 0, 5}, 2, 2, 0.25};
const Crown tall{{3, -2, 6}, 1.5, 4, 0.4};

TEST(CrownShade, ThroughTheMiddleItsTransmittanceIsLeft) {
  EXPECT_NEAR(crown_share(ball, {0, 0, 0}, {0, 0, 10}), 0.25, 1e-12);
  EXPECT_NEAR(crown_share(ball, {-9, 0, 5}, {9, 0, 5}), 0.25, 1e-12);
  EXPECT_NEAR(crown_share(tall, {3, -2, 0}, {3, -2, 20}), 0.4, 1e-12);
  EXPECT_NEAR(crown_share(tall, {-5, -2, 6}, {11, -2, 6}), 0.4, 1e-12);
}

TEST(CrownShade, AChordOffTheMiddleCountsByItsLength) {
  // 1 m beside the middle of a ball of radius 2 m: chord 2 sqrt(3) of 4 m.
  EXPECT_NEAR(crown_share(ball, {-9, 1, 5}, {9, 1, 5}), std::pow(0.25, std::sqrt(3.0) / 2), 1e-12);
  EXPECT_EQ(crown_share(ball, {-9, 2.01, 5}, {9, 2.01, 5}), 1);
}

TEST(CrownShade, OnlyThePieceBetweenTheTwoPlacesCounts) {
  EXPECT_NEAR(crown_share(ball, {0, 0, 0}, {0, 0, 5}), 0.5, 1e-12);  // half of the width: the root of 0.25
  EXPECT_NEAR(crown_share(ball, {0, 0, 4.5}, {0, 0, 5.5}), std::pow(0.25, 0.25), 1e-12);
  EXPECT_EQ(crown_share(ball, {0, 0, 0}, {0, 0, 2.9}), 1);
  EXPECT_EQ(crown_share(ball, {0, 0, 7.1}, {0, 0, 20}), 1);
  EXPECT_EQ(crown_share(ball, {0, 0, 5}, {0, 0, 5}), 1);
}

TEST(CrownShade, AnOpaqueCrownLeavesNothingAndAFlatOneIsNotThere) {
  EXPECT_EQ(crown_share({{0, 0, 5}, 2, 2, 0}, {0, 0, 0}, {0, 0, 10}), 0);
  EXPECT_EQ(crown_share({{0, 0, 5}, 0, 2, 0.3}, {0, 0, 0}, {0, 0, 10}), 1);
}

TEST(CrownShade, ACrownThatShadesIsNear) {
  std::mt19937 random(4);
  std::uniform_real_distribution<double> metres(-12, 12);
  int shaded = 0;
  for (int i = 0; i < 20000; ++i) {
    const Point3 from{metres(random), metres(random), metres(random)};
    const Point3 to{metres(random), metres(random), metres(random)};
    const Point3 beside{to.x_m + 0.3, to.y_m - 0.2, to.z_m};
    if (crown_share(tall, from, beside) == 1) continue;
    ++shaded;
    EXPECT_TRUE(crown_near(tall, from, to, 0.37));
  }
  EXPECT_GT(shaded, 300);
  EXPECT_FALSE(crown_near(tall, {20, 20, 0}, {30, 20, 0}, 1));
}

}  // namespace
}  // namespace duskwire::light
