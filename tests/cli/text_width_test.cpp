// SPDX-License-Identifier: Apache-2.0
#include "cli/text_width.hpp"

#include <gtest/gtest.h>

namespace duskwire::cli {
namespace {

TEST(TextWidth, CountsCellsNotBytes) {
  EXPECT_EQ(display_width("12.31 V"), 7);
  EXPECT_EQ(display_width("2.5 mm²"), 7);
  EXPECT_EQ(display_width("│━●━│"), 5);
  EXPECT_EQ(display_width("庭の灯"), 6);
  EXPECT_EQ(display_width("e\xcc\x81"), 1);  // e with a combining accent
}

TEST(TextWidth, ColourCodesTakeNoCells) { EXPECT_EQ(display_width("\x1b[1;31moff\x1b[0m"), 3); }

TEST(TextWidth, BrokenUtf8IsCountedAndNeverReadPastItsEnd) {
  EXPECT_EQ(display_width("\xe2\x94"), 2);
  EXPECT_EQ(display_width("\xff\xfe"), 2);
  EXPECT_EQ(display_width("\xc3("), 2);
}

TEST(TextWidth, ClipEndsInTheEllipsisAndFits) {
  EXPECT_EQ(clip("Oak, north side", 15, "…"), "Oak, north side");
  EXPECT_EQ(clip("Oak, north side", 10, "…"), "Oak, nort…");
  EXPECT_EQ(clip("Oak, north side", 6, "…"), "Oak,…");
  EXPECT_EQ(clip("Wände", 3, "…"), "Wä…");
}

TEST(TextWidth, WrapBreaksAtSpacesAndKeepsEveryWord) {
  const std::vector<std::string> lines = wrap("the far lamp sees too few volts", 12);
  ASSERT_EQ(lines.size(), 3u);
  EXPECT_EQ(lines[0], "the far lamp");
  EXPECT_EQ(lines[1], "sees too few");
  EXPECT_EQ(lines[2], "volts");
}

TEST(TextWidth, WrapKeepsANumberWithItsUnit) {
  EXPECT_EQ(wrap("the lamp sees 9.62 V, no more", 18), (std::vector<std::string>{"the lamp sees", "9.62 V, no more"}));
  EXPECT_EQ(wrap("cable at 20 °C.", 11), (std::vector<std::string>{"cable at", "20 °C."}));
  EXPECT_EQ(wrap("lamp A is out", 6), (std::vector<std::string>{"lamp A", "is out"}));
}

TEST(TextWidth, WrapBreaksAWordThatIsLongerThanTheLine) {
  EXPECT_EQ(wrap("/transformers/0/outputs/1", 10), (std::vector<std::string>{"/transform", "ers/0/outp", "uts/1"}));
  EXPECT_EQ(wrap("", 10), std::vector<std::string>{});
}

TEST(TextWidth, ParagraphHangsUnderItsLead) {
  EXPECT_EQ(paragraph("why   ", "a b c d e f", 11), "why   a b c\n      d e f\n");
}

TEST(TextWidth, ParagraphMayHangLessThanItsLead) {
  EXPECT_EQ(paragraph("Title: ", "a b c d e f", 11, 2), "Title: a b\n  c d e f\n");
}

}  // namespace
}  // namespace duskwire::cli
