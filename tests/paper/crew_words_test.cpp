// SPDX-License-Identifier: Apache-2.0
// One foot is 0.3048 m and twelve inches.
#include "paper/crew_words.hpp"

#include <gtest/gtest.h>

namespace duskwire::paper {
namespace {

constexpr auto us = job::DisplayUnits::us;
constexpr auto metric = job::DisplayUnits::metric;

TEST(CrewWords, TapesReadAsTapesAre) {
  EXPECT_EQ(tape_words(3.42, metric), "3.42 m");
  EXPECT_EQ(tape_words(3.42, us), "11 ft 3 in") << "134.6 in";
  EXPECT_EQ(tape_words(0.6096, us), "2 ft");
  EXPECT_EQ(tape_words(0.2, us), "8 in");
  EXPECT_EQ(tape_words(0.3047, us), "1 ft") << "rounded up to twelve inches";
}

TEST(CrewWords, CoversAndLengthsHaveTheUnitsOfTheTrade) {
  EXPECT_EQ(cover_words(0.15, metric), "150 mm");
  EXPECT_EQ(cover_words(0.1524, us), "6 in");
  EXPECT_EQ(cover_words(std::nullopt, us), "\u2013");
  EXPECT_EQ(length_words(30.48, us), "100.0 ft");
  EXPECT_EQ(length_figure(12.34, metric), "12.3");
  EXPECT_EQ(va_figure(42.04), "42");
  EXPECT_EQ(va_figure(205.9), "205.9");
}

}  // namespace
}  // namespace duskwire::paper
