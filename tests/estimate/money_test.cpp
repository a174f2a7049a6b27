// SPDX-License-Identifier: Apache-2.0
#include "estimate/money.hpp"

#include <gtest/gtest.h>

#include <limits>

namespace duskwire::estimate {
namespace {

TEST(AmountMinor, RoundsHalfUpOnce) {
  EXPECT_EQ(amount_minor(0.5, 1), 1);
  EXPECT_EQ(amount_minor(0.499, 1), 0);
  EXPECT_EQ(amount_minor(30.48, 125), 3810);
  EXPECT_EQ(amount_minor(0.1, 5), 1);  // 0.5 of a minor unit
  EXPECT_EQ(amount_minor(52, 160), 8320);
  EXPECT_EQ(amount_minor(0, 999), 0);
}

TEST(AmountMinor, IsExactWhereFloatingPointIsNot) {
  EXPECT_EQ(amount_minor(1, 9'007'199'254'740'993), 9'007'199'254'740'993);  // 2^53 + 1
}

TEST(AmountMinor, RefusesWhatIsNotAnAmount) {
  EXPECT_FALSE(amount_minor(-1, 100));
  EXPECT_FALSE(amount_minor(1, -100));
  EXPECT_FALSE(amount_minor(std::numeric_limits<double>::quiet_NaN(), 100));
  EXPECT_FALSE(amount_minor(1e6, std::numeric_limits<std::int64_t>::max() / 1000));
}

}  // namespace
}  // namespace duskwire::estimate
