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

TEST(ShareMinor, RoundsHalfAwayFromZeroOnce) {
  EXPECT_EQ(share_minor(8320, 160), 13312);
  EXPECT_EQ(share_minor(347467, 10), 34747);
  EXPECT_EQ(share_minor(5, 10), 1);
  EXPECT_EQ(share_minor(-5, 10), -1);
  EXPECT_EQ(share_minor(4, 10), 0);
  EXPECT_EQ(share_minor(-4, 10), 0);
  EXPECT_EQ(share_minor(300'000, 33.333), 99'999);
  EXPECT_FALSE(share_minor(100, -1));
  EXPECT_FALSE(share_minor(std::numeric_limits<std::int64_t>::max(), 100));
}

TEST(TimeMinor, IsMinutesAtARatePerHour) {
  EXPECT_EQ(time_minor(60, 8500), 8500);
  EXPECT_EQ(time_minor(25 * 60 / 9.0, 8500), 23611);  // 2.7778 h
  EXPECT_EQ(time_minor(0, 8500), 0);
  EXPECT_FALSE(time_minor(std::numeric_limits<double>::infinity(), 8500));
  EXPECT_FALSE(time_minor(1, -1));
}

}  // namespace
}  // namespace duskwire::estimate
