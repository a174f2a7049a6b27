// SPDX-License-Identifier: Apache-2.0
#include "cli/volt_bar.hpp"

#include <gtest/gtest.h>

#include "cli/text_width.hpp"

namespace duskwire::cli {
namespace {

TEST(VoltBar, DrawsTheSpanInsideTheWindow) {
  // 10 to 15 V over the cells 2 to 12: half a volt a cell.
  EXPECT_EQ(volt_bar({12, 11, 13, 10, 15}, 15, {}), "  │·━━●━━···│  ");
}

TEST(VoltBar, CrossesTheEdgeWhereVoltsLeaveTheWindow) {
  EXPECT_EQ(volt_bar({10.5, 9.9, 11, 10, 15}, 15, {}), " ━│●━·······│  ");
  EXPECT_EQ(volt_bar({14, 13, 15.1, 10, 15}, 15, {}), "  │·····━━●━│━ ");
}

TEST(VoltBar, DrawsADarkLampAtTheFarLeft) { EXPECT_EQ(volt_bar({0, 0, 0, 10, 15}, 15, {}), "● │·········│  "); }

TEST(VoltBar, KeepsItsWidthWhateverTheVolts) {
  for (const double value_v : {-5.0, 0.0, 9.99, 10.0, 12.0, 15.0, 15.01, 400.0}) {
    EXPECT_EQ(display_width(volt_bar({value_v, value_v - 1, value_v + 1, 10, 15}, 24, {})), 24) << value_v;
  }
}

TEST(ShareBar, FillsItsShareAndNoMoreThanItsWidth) {
  EXPECT_EQ(share_bar(0.5, 10, Ink::plain, {}), "█████░░░░░");
  EXPECT_EQ(share_bar(1.7, 4, Ink::plain, {}), "████");
  EXPECT_EQ(share_bar(-1, 4, Ink::plain, {}), "░░░░");
}

}  // namespace
}  // namespace duskwire::cli
