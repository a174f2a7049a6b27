// SPDX-License-Identifier: Apache-2.0
// Money and days on paper.
#include "paper/amounts.hpp"

#include <gtest/gtest.h>

namespace duskwire::paper {
namespace {

TEST(Amounts, MoneyStandsInGroupsOfThree) {
  EXPECT_EQ(money_words(347467, "USD"), "3,474.67 USD");
  EXPECT_EQ(money_words(99900, "EUR"), "999.00 EUR");
  EXPECT_EQ(money_words(-123456789, "USD"), "-1,234,567.89 USD");
  EXPECT_EQ(money_words(1234567, "JPY"), "1,234,567 JPY");
}

TEST(Amounts, DaysAreCountedOverTheEndOfMonthsAndYears) {
  EXPECT_EQ(days_on("2026-11-26", 30), "2026-12-26");
  EXPECT_EQ(days_on("2027-12-15", 30), "2028-01-14");
  EXPECT_EQ(days_on("2028-02-28", 1), "2028-02-29");
  EXPECT_EQ(days_on("soon", 30), "");
}

TEST(Amounts, YearsFromALeapDayEndOnTheLastOfFebruary) {
  EXPECT_EQ(years_on("2028-02-29", 5), "2033-02-28");
  EXPECT_EQ(years_on("2026-11-26", 2.5), "2029-05-26");
}

}  // namespace
}  // namespace duskwire::paper
