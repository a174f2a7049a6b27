// SPDX-License-Identifier: Apache-2.0
// The quick table against the exact reading. Stated errors, as shares of the table's peak: 2e-5 for tables at usual
// steps (single precision and nothing else), 0.3 % for uneven ones and for smooth ones of types A and B.
#include "light/lookup_grid.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>

#include "light/scenes.hpp"

namespace duskwire::light {
namespace {

using geometry::Vec3;

double worst_error(const Distribution& d, std::uint32_t seed) {
  const LookupGrid grid = lookup_grid(d);
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> between(-1, 1);
  double worst_cd = 0;
  for (int i = 0; i < 20000; ++i) {
    const Vec3 way{between(random), between(random), between(random)};
    const PhotometricAngles at = angles_from_way(PhotometricType::c, way);
    const float quick_cd =
        intensity_cd(grid, static_cast<float>(at.horizontal_deg), static_cast<float>(at.vertical_deg));
    worst_cd = std::max(worst_cd, std::abs(double{quick_cd} - direction_cd(d, way)));
  }
  return worst_cd / *std::max_element(d.intensity_cd.begin(), d.intensity_cd.end());
}

TEST(LookupGrid, KeepsTheTablesOwnInterpolationAtUsualSteps) {
  const auto lobe = [](double c, double gamma) {
    return 1000 * std::pow(std::max(0.0, std::cos(gamma)), 3) * (1 + 0.6 * std::cos(c) + 0.3 * std::sin(2 * c));
  };
  for (const auto& [c_step, gamma_step] :
       {std::pair{0.0, 1.0}, std::pair{15.0, 5.0}, std::pair{22.5, 2.5}, std::pair{90.0, 1.0}, std::pair{5.0, 0.5}}) {
    EXPECT_LT(worst_error(testing::table(c_step, gamma_step, 90, lobe), 1), 2e-5) << c_step << " " << gamma_step;
  }
  EXPECT_EQ(lookup_grid(testing::table(15, 5, 90, lobe)).intensity_cd.size(), 25U * 19U + 1U);
}

TEST(LookupGrid, ReadsUnevenTablesAnew) {
  Distribution d = testing::table(0, 1, 90, [](double, double gamma) { return 1000 * std::pow(std::cos(gamma), 4); });
  d.vertical_deg[7] = 7.31;
  d.vertical_deg[33] = 32.77;
  EXPECT_LT(worst_error(d, 2), 0.003);
  EXPECT_GT(lookup_grid(d).gammas, 300);
}

TEST(LookupGrid, ReadsTypesAAndBAnew) {
  for (const PhotometricType type : {PhotometricType::a, PhotometricType::b}) {
    Distribution d;
    d.type = type;
    for (int i = -90; i <= 90; i += 5) d.horizontal_deg.push_back(i);
    d.vertical_deg = d.horizontal_deg;
    for (const double h : d.horizontal_deg) {
      for (const double v : d.vertical_deg) {
        d.intensity_cd.push_back(800 * std::pow(std::cos(h * testing::pi / 180) * std::cos(v * testing::pi / 180), 3));
      }
    }
    EXPECT_LT(worst_error(d, 3), 0.003) << static_cast<int>(type);
  }
}

TEST(LookupGrid, IsDarkOutsideOfTheTable) {
  const LookupGrid uplight = lookup_grid({PhotometricType::c, {0}, {90, 135, 180}, {200, 300, 400}});
  EXPECT_EQ(intensity_cd(uplight, 0, 89.9F), 0);
  EXPECT_EQ(intensity_cd(uplight, 0, 90), 200);
  EXPECT_EQ(intensity_cd(uplight, 0, 180), 400);
  EXPECT_EQ(intensity_cd(lookup_grid(Distribution{}), 0, 10), 0);
}

TEST(LookupGrid, TheMostBetweenTwoAnglesIsNeverLessThanAnyThere) {
  const Distribution d =
      testing::table(30, 7.5, 90, [](double c, double gamma) { return 500 + 400 * std::sin(9 * gamma) * std::cos(c); });
  const LookupGrid grid = lookup_grid(d);
  for (float from_deg = 0; from_deg < 95; from_deg += 3.3F) {
    for (const float wide_deg : {0.0F, 0.7F, 5.0F}) {
      const float most_cd = most_cd_between(grid, from_deg, from_deg + wide_deg);
      for (float c_deg = 0; c_deg < 360; c_deg += 10) {
        for (float share = 0; share <= 1; share += 0.25F) {
          EXPECT_GE(most_cd, intensity_cd(grid, c_deg, from_deg + share * wide_deg));
        }
      }
    }
  }
  EXPECT_EQ(most_cd_between(grid, 120, 150), 0);
}

}  // namespace
}  // namespace duskwire::light
