// SPDX-License-Identifier: Apache-2.0
#include "base/decimal.hpp"

#include <gtest/gtest.h>

namespace duskwire {
namespace {

TEST(Decimal, AWholeNumberIsTakenWithAllItsCharacters) {
  EXPECT_EQ(leading_number("4").value, 4);
  EXPECT_EQ(leading_number("-12.25").value, -12.25);
  EXPECT_EQ(leading_number("-12.25").length, 6u);
  EXPECT_EQ(leading_number(".5").value, 0.5);
  EXPECT_EQ(leading_number("3.").length, 2u);
  EXPECT_EQ(leading_number("1.5e-3").value, 0.0015);
  EXPECT_EQ(leading_number("2E+2").value, 200);
}

TEST(Decimal, ValuesAreTheNearestDouble) {
  EXPECT_EQ(leading_number("0.1").value, 0.1);
  EXPECT_EQ(leading_number("12.345678901234567").value, 12.345678901234567);
  EXPECT_EQ(leading_number("5e-324").value, 5e-324);
}

TEST(Decimal, WhatFollowsTheNumberIsLeft) {
  EXPECT_EQ(leading_number("4 W").length, 1u);
  EXPECT_EQ(leading_number("4ft").length, 1u);
  EXPECT_EQ(leading_number("4e").length, 1u);
  EXPECT_EQ(leading_number("4e+x").length, 1u);
  EXPECT_EQ(leading_number("1.2.3").length, 3u);
  EXPECT_EQ(leading_number("0x10").length, 1u);
}

TEST(Decimal, WhatIsNoNumberIsNotTaken) {
  for (const char* text : {"", "-", ".", "-.", "e5", "+4", " 4", "inf", "nan", "lamp", "1e999", "--1"}) {
    EXPECT_EQ(leading_number(text).length, 0u) << text;
  }
}

}  // namespace
}  // namespace duskwire
