// SPDX-License-Identifier: Apache-2.0
#include "study/corners.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <limits>
#include <set>

namespace duskwire::study {
namespace {

std::vector<std::string> names(const std::vector<Corner>& corners) {
  std::vector<std::string> all;
  for (const Corner& corner : corners) all.push_back(corner_words(corner, corners.front()));
  return all;
}

TEST(Corners, UsualSiteHasNominalEightCornersAndLoneLamps) {
  const std::vector<std::string> all = names(corners_of({}));
  ASSERT_EQ(all.size(), 10u);
  EXPECT_EQ(all.front(), "nominal");
  EXPECT_EQ(all.back(), "one lamp on, mains high, cable cold, short");
  EXPECT_THAT(all, testing::Contains("mains low, cable hot, long"));
  EXPECT_THAT(all, testing::Contains("mains high, cable hot, short"));
  EXPECT_EQ(std::set<std::string>(all.begin(), all.end()).size(), all.size());
}

TEST(Corners, ToleranceOfNothingMakesNoCorner) {
  EXPECT_THAT(names(corners_of({5, 20, 20, 20, 0, false, {}})),
              testing::ElementsAre("nominal", "mains low", "mains high"));
  EXPECT_THAT(names(corners_of({0, 20, 20, 20, 0, false, {}})), testing::ElementsAre("nominal"));
}

TEST(Corners, ConditionHoldsTemperatureAndLengthInOneFactor) {
  electrical::Condition condition;
  set_condition(condition, {0.95, 40, 1.05, false});
  EXPECT_DOUBLE_EQ(condition.mains_factor, 0.95);
  // 20 K above 20 C at 0.393 % per kelvin (NBS Handbook 100: from memory), and 5 % longer.
  EXPECT_NEAR(condition.copper_factor, 1.0786 * 1.05, 1e-12);
}

TEST(Corners, NominalCableMayBeWarm) {
  const std::vector<Corner> corners = corners_of({0, 30, 0, 40, 0, false, {}});
  EXPECT_DOUBLE_EQ(corners.front().cable_c, 30);
  EXPECT_THAT(names(corners), testing::ElementsAre("nominal", "cable cold", "cable hot"));
}

TEST(Corners, WeakestIsLowHotAndLong) {
  const Corner corner = weakest_corner({});
  EXPECT_DOUBLE_EQ(corner.mains_factor, 0.95);
  EXPECT_DOUBLE_EQ(corner.cable_c, 40);
  EXPECT_DOUBLE_EQ(corner.length_factor, 1.05);
}

TEST(Corners, NonsenseIsBounded) {
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  constexpr double infinite = std::numeric_limits<double>::infinity();
  for (const Corner& corner : corners_of({nan, infinite, -infinite, 1e300, -7, true, {}})) {
    electrical::Condition condition;
    set_condition(condition, corner);
    EXPECT_TRUE(condition.mains_factor >= 0.5 && condition.mains_factor <= 1.5) << condition.mains_factor;
    EXPECT_TRUE(condition.copper_factor > 0.3 && condition.copper_factor < 3) << condition.copper_factor;
  }
}

}  // namespace
}  // namespace duskwire::study
