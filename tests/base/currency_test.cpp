// SPDX-License-Identifier: Apache-2.0
#include "base/currency.hpp"

#include <gtest/gtest.h>

#include <limits>

namespace duskwire {
namespace {

TEST(DecimalAmount, HasTheDigitsOfItsCurrency) {
  EXPECT_EQ(decimal_amount(126530, "USD"), "1265.30");
  EXPECT_EQ(decimal_amount(1200, "JPY"), "1200");
  EXPECT_EQ(decimal_amount(1234, "KWD"), "1.234");
  EXPECT_EQ(decimal_amount(7, "EUR"), "0.07");
}

TEST(DecimalAmount, KeepsTheSignOfSmallAndHugeAmounts) {
  EXPECT_EQ(decimal_amount(-5, "USD"), "-0.05");
  EXPECT_EQ(decimal_amount(std::numeric_limits<std::int64_t>::min(), "USD"), "-92233720368547758.08");
  EXPECT_EQ(decimal_amount(0, "USD"), "0.00");
}

}  // namespace
}  // namespace duskwire
