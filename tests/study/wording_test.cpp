// SPDX-License-Identifier: Apache-2.0
#include "study/wording.hpp"

#include <gtest/gtest.h>

namespace duskwire::study {
namespace {

using job::DisplayUnits;

TEST(Wording, DepthsAreMillimetresOrInches) {
  EXPECT_EQ(worded(0.15, depth_unit(DisplayUnits::metric)), "150 mm");
  EXPECT_EQ(worded(0.15, depth_unit(DisplayUnits::us)), "6 in");
}

TEST(Wording, DistancesAreMetresOrFeet) {
  EXPECT_EQ(worded(3.0, distance_unit(DisplayUnits::metric)), "3 m");
  EXPECT_EQ(worded(3.0, distance_unit(DisplayUnits::us)), "10 ft");
}

TEST(Wording, TrailingZerosAreLeftOutButNotWholeNumbers) {
  EXPECT_EQ(worded(12.50, volt_unit), "12.5 V");
  EXPECT_EQ(worded(300, volt_ampere_unit), "300 VA");
  EXPECT_EQ(worded(0, volt_unit), "0 V");
  EXPECT_EQ(worded(-0.001, volt_unit), "0 V");
}

TEST(Wording, PairIsToldApartHoweverCloseItIs) {
  const WordedPair depths = worded_apart(0.1499, 0.15, depth_unit(DisplayUnits::metric));
  EXPECT_EQ(depths.measured, "149.9 mm");
  EXPECT_EQ(depths.limit, "150 mm");
  const WordedPair amps = worded_apart(25.0001, 25, ampere_unit);
  EXPECT_EQ(amps.measured, "25.0001 A");
  EXPECT_EQ(amps.limit, "25 A");
}

TEST(Wording, ConductorsAreNamedAsTheyAreSold) {
  EXPECT_EQ(conductor_words(2.5, DisplayUnits::metric), "2.5 mm²");
  EXPECT_EQ(conductor_words(2.5, DisplayUnits::us), "2.5 mm²");
  EXPECT_EQ(conductor_words(3.3088, DisplayUnits::us), "12 AWG");
  EXPECT_EQ(conductor_words(3.3088, DisplayUnits::metric), "12 AWG (3.31 mm²)");
}

TEST(Wording, LongListsAreCutAndCounted) {
  EXPECT_EQ(listed({"C1"}), "C1");
  EXPECT_EQ(listed({"C1", "C2"}), "C1 and C2");
  EXPECT_EQ(listed({"C1", "C2", "C3"}), "C1, C2 and C3");
  EXPECT_EQ(listed({"1", "2", "3", "4", "5", "6"}), "1, 2, 3, 4, 5 and 6");
  EXPECT_EQ(listed({"1", "2", "3", "4", "5", "6", "7", "8"}), "1, 2, 3, 4, 5 and 3 more");
}

TEST(Wording, NameStandsInBracketsWhereItSaysMoreThanTheId) {
  EXPECT_EQ(called("F3", "Oak"), "F3 (Oak)");
  EXPECT_EQ(called("F3", ""), "F3");
  EXPECT_EQ(called("F3", "F3"), "F3");
}

}  // namespace
}  // namespace duskwire::study
