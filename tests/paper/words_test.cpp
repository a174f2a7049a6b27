// SPDX-License-Identifier: Apache-2.0
// Where a line may be broken.
#include "paper/words.hpp"

#include <gtest/gtest.h>

#include <algorithm>

namespace duskwire::paper {
namespace {

// Room for all but the last letter, so that a break at the hyphen would be the way out.
std::size_t lines_in_less_than_its_width(const std::string& text) {
  const double whole_mm = Words(text, {}, 0).width_mm();
  return Words(text, {}, whole_mm - 1).line_count();
}

TEST(Words, AnIdIsNotBrokenAtItsHyphen) {
  EXPECT_EQ(lines_in_less_than_its_width("EN-C4"), 1U);
  EXPECT_EQ(lines_in_less_than_its_width("2026-11-26"), 1U);
  EXPECT_EQ(lines_in_less_than_its_width("T1-A.22"), 1U);
  EXPECT_EQ(lines_in_less_than_its_width("B-HUB"), 1U);
  const double room_mm = Words("from EN-", {}, 0).width_mm() + 0.5;
  const Words words("from EN-C4", {}, room_mm);
  EXPECT_EQ(words.line_count(), 2U);
  // The whole id stands in the second line: wider than "from", which a broken one would leave it below.
  EXPECT_NEAR(words.width_mm(), std::max(Words("EN-C4", {}, 0).width_mm(), Words("from", {}, 0).width_mm()), 0.8);
}

TEST(Words, OtherWordsAndVeryLongIdsAreBrokenWhereALineNeedsIt) {
  EXPECT_EQ(lines_in_less_than_its_width("night-visit"), 2U);
  EXPECT_GT(lines_in_less_than_its_width("TRANSFORMER-NORTH-1234567890"), 1U);
}

}  // namespace
}  // namespace duskwire::paper
