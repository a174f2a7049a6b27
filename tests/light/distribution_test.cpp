// SPDX-License-Identifier: Apache-2.0
// Reading tables of intensities; expected numbers are closed forms, stated beside each check.
#include "light/distribution.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <random>

#include "light/photometry_files.hpp"

namespace duskwire::light {
namespace {

constexpr double pi = std::numbers::pi;

// Four planes, each of its own constant intensity, over the lower half.
Distribution four_planes() {
  return {PhotometricType::c, {0, 90, 180, 270, 360}, {0, 90}, {100, 100, 200, 200, 300, 300, 400, 400, 100, 100}};
}

TEST(Distribution, IsotropicFluxIsFourPiTimesIntensity) {
  EXPECT_NEAR(flux_lm(one_plane(45, 180, [](double) { return 100.0; })), 1256.637, 0.001);  // 4 pi 100
}

TEST(Distribution, LambertianFluxIsPiTimesAxisIntensity) {
  // pi I0 = 3141.593 lm for 1000 cd; the straight pieces of a 1 degree table lie 2.5e-5 below the cosine.
  EXPECT_NEAR(flux_lm(one_plane(1, 90, [](double g) { return 1000 * std::cos(g); })), 3141.593, 0.1);
}

TEST(Distribution, FluxIsExactForALineInGamma) {
  // I = g from 0 to 90 degrees: 2 pi times the integral of g sin g = 2 pi (sin g - g cos g) from 0 to pi/2 = 2 pi.
  EXPECT_NEAR(flux_lm(one_plane(90, 90, [](double g) { return g; })), 2 * pi, 1e-12);
  EXPECT_NEAR(flux_lm(one_plane(0.5, 90, [](double g) { return g; })), 2 * pi, 1e-9);
}

TEST(Distribution, IsLinearBetweenPlanesAndTurnsRound) {
  const Distribution d = four_planes();
  EXPECT_DOUBLE_EQ(intensity_cd(d, 45, 30), 150);
  EXPECT_DOUBLE_EQ(intensity_cd(d, 315, 30), 250);
  EXPECT_DOUBLE_EQ(intensity_cd(d, -45, 30), 250);
  EXPECT_DOUBLE_EQ(intensity_cd(d, 360, 30), 100);
  EXPECT_DOUBLE_EQ(intensity_cd(d, 405, 30), 150);
  EXPECT_DOUBLE_EQ(flux_lm(d), 2 * pi * 250);  // mean over the turn 250 cd over 2 pi sr
}

TEST(Distribution, IsDarkOutsideOfItsVerticalRange) {
  const Distribution d = four_planes();
  EXPECT_EQ(intensity_cd(d, 0, 90.001), 0);
  EXPECT_EQ(intensity_cd(d, 0, 90), 100);
}

TEST(Distribution, TypeCLooksDownWithCFromXToY) {
  const Distribution d = four_planes();
  EXPECT_NEAR(direction_cd(d, {1, 0, -1}), 100, 1e-9);
  EXPECT_NEAR(direction_cd(d, {0, 1, -1}), 200, 1e-9);
  EXPECT_NEAR(direction_cd(d, {-2, 0, -1}), 300, 1e-9);
  EXPECT_NEAR(direction_cd(d, {0, -1, -5}), 400, 1e-9);
  EXPECT_EQ(direction_cd(d, {0, 0, 1}), 0);
}

// Types A and B: their axis along -z, "up" along +x, "right" along +y.
TEST(Distribution, TypesAAndBHaveTheirAxisDownUpAlongXAndRightAlongY) {
  for (const PhotometricType type : {PhotometricType::a, PhotometricType::b}) {
    const Distribution d{type, {-90, 0, 90}, {-90, 0, 90}, {0, 10, 0, 50, 100, 70, 0, 20, 0}};
    EXPECT_NEAR(direction_cd(d, {0, 0, -1}), 100, 1e-9);
    EXPECT_NEAR(direction_cd(d, {1, 0, -1e-12}), 70, 1e-6);
    EXPECT_NEAR(direction_cd(d, {-1, 0, -1e-12}), 50, 1e-6);
    EXPECT_NEAR(direction_cd(d, {0, 1, -1e-12}), 20, 1e-6);
    EXPECT_NEAR(direction_cd(d, {0, -1, -1e-12}), 10, 1e-6);
    EXPECT_EQ(direction_cd(d, {0.3, 0.2, 1}), 0);
  }
}

TEST(Distribution, AnglesAndWaysAgreeForEveryType) {
  std::mt19937 dice(11);
  std::normal_distribution<double> normal;
  for (int i = 0; i < 300; ++i) {
    const geometry::Vec3 way = unit(geometry::Vec3{normal(dice), normal(dice), normal(dice)});
    for (const PhotometricType type : {PhotometricType::a, PhotometricType::b, PhotometricType::c}) {
      const geometry::Vec3 back = way_from_angles(type, angles_from_way(type, way));
      EXPECT_NEAR(length(way - back), 0, 1e-14) << i;
    }
  }
}

TEST(Distribution, FluxOfEveryTypeIsTheSumOverTheSphere) {
  // Against a sum over evenly spread ways (a spiral), which knows nothing of planes and weights.
  const std::vector<Distribution> all = {
      four_planes(),
      {PhotometricType::a, {-90, 0, 90}, {-90, 0, 90}, {0, 10, 0, 50, 100, 70, 0, 20, 0}},
      {PhotometricType::b, {-90, -30, 90}, {-60, 0, 90}, {0, 10, 0, 50, 100, 70, 0, 20, 0}},
      {PhotometricType::b, {-90, 90}, {-180, 180}, {5, 5, 5, 5}},
  };
  for (const Distribution& d : all) {
    const int count = 400000;
    double sum_lm = 0;
    for (int i = 0; i < count; ++i) {
      const double z = 1 - (2 * i + 1.0) / count;
      const double turn = i * pi * (3 - std::sqrt(5.0));
      sum_lm += direction_cd(d, {std::sqrt(1 - z * z) * std::cos(turn), std::sqrt(1 - z * z) * std::sin(turn), z});
    }
    EXPECT_NEAR(sum_lm * 4 * pi / count, flux_lm(d), 1e-3 * flux_lm(d));
  }
}

}  // namespace
}  // namespace duskwire::light
