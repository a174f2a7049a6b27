// SPDX-License-Identifier: Apache-2.0
#include "cli/terminal.hpp"

#include <gtest/gtest.h>

namespace duskwire::cli {
namespace {

TEST(Terminal, ColoursOnlyATerminal) {
  EXPECT_TRUE(style_for({.is_terminal = true, .columns = 100}, ColourChoice::automatic).colour);
  EXPECT_FALSE(style_for({.is_terminal = false}, ColourChoice::automatic).colour);
  EXPECT_TRUE(style_for({.is_terminal = false}, ColourChoice::always).colour);
  EXPECT_FALSE(style_for({.is_terminal = true}, ColourChoice::never).colour);
}

TEST(Terminal, HonoursTheWishForNoColour) {
  EXPECT_FALSE(style_for({.is_terminal = true, .environment = {{"NO_COLOR", "1"}}}, ColourChoice::automatic).colour);
  EXPECT_TRUE(style_for({.is_terminal = true, .environment = {{"NO_COLOR", ""}}}, ColourChoice::automatic).colour);
  EXPECT_FALSE(style_for({.is_terminal = true, .environment = {{"TERM", "dumb"}}}, ColourChoice::automatic).colour);
}

TEST(Terminal, TakesItsWidthFromTheTerminalThenTheEnvironmentThenEighty) {
  EXPECT_EQ(style_for({.is_terminal = true, .columns = 100}, ColourChoice::never).width, 100);
  EXPECT_EQ(style_for({.environment = {{"COLUMNS", "132"}}}, ColourChoice::never).width, 132);
  EXPECT_EQ(style_for({}, ColourChoice::never).width, 80);
  EXPECT_EQ(style_for({.environment = {{"COLUMNS", "wide"}}}, ColourChoice::never).width, 80);
  EXPECT_EQ(style_for({.is_terminal = true, .columns = 20}, ColourChoice::never).width, 60);
}

TEST(Terminal, DrawsInAsciiWhereTheLocaleIsNotUtf8) {
  EXPECT_EQ(style_for({.environment = {{"LC_ALL", "C"}}}, ColourChoice::never).glyphs.edge, "|");
  EXPECT_EQ(style_for({.environment = {{"LANG", "en_US.UTF-8"}}}, ColourChoice::never).glyphs.edge, "│");
  EXPECT_EQ(style_for({.environment = {{"LC_ALL", "C.utf8"}, {"LANG", "C"}}}, ColourChoice::never).glyphs.edge, "│");
}

}  // namespace
}  // namespace duskwire::cli
