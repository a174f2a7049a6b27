// SPDX-License-Identifier: Apache-2.0
#include "estimate/deposit.hpp"

#include <gtest/gtest.h>

#include "estimate/priced_jobs.hpp"

namespace duskwire::estimate {
namespace {

std::optional<Deposit> deposit(const job::Terms& terms, std::int64_t total_minor, const char* currency = "USD") {
  Problems problems;
  return deposit_of(terms, tests::with_rules().deposit_rules, total_minor, currency, problems);
}

job::Terms under(const char* rule) {
  job::Terms terms;
  terms.deposit_rule = rule;
  return terms;
}

TEST(Deposit, WhicheverOfShareAndAmountIsLower) {
  EXPECT_EQ(deposit(under("ten-percent-or-1000"), 347467)->amount_minor, 34747);
  EXPECT_EQ(deposit(under("ten-percent-or-1000"), 2'000'000)->amount_minor, 100'000);
  EXPECT_EQ(deposit(under("one-third"), 300'000)->amount_minor, 99'999);
}

TEST(Deposit, TheRuleLimitsWhatTheOfferAsks) {
  job::Terms terms = under("ten-percent-or-1000");
  terms.deposit_pct = 50;
  EXPECT_EQ(deposit(terms, 100'000)->amount_minor, 10'000);
  EXPECT_EQ(deposit(terms, 100'000)->reason, "100.00 USD: the rule allows 10 % of the price.");
  terms.deposit_pct = 5;
  EXPECT_EQ(deposit(terms, 100'000)->reason, "50.00 USD: the offer asks 5 % of the price.");
  terms.deposit_cap_minor = 3000;
  EXPECT_EQ(deposit(terms, 100'000)->amount_minor, 3000);
}

TEST(Deposit, WithoutARuleItIsTheOffers) {
  job::Terms terms;
  EXPECT_FALSE(deposit(terms, 100'000));
  terms.deposit_cap_minor = 3000;
  EXPECT_FALSE(deposit(terms, 100'000));
  terms.deposit_pct = 25;
  EXPECT_EQ(deposit(terms, 10'000)->amount_minor, 2500);
  EXPECT_EQ(deposit(terms, 100'000)->amount_minor, 3000);
}

TEST(Deposit, IsNeverMoreThanThePrice) { EXPECT_EQ(deposit(under("ten-percent-or-1000"), -500)->amount_minor, 0); }

TEST(Deposit, AnUnknownRuleAndAnotherCurrencyAreSaid) {
  Problems problems;
  const auto rules = tests::with_rules().deposit_rules;
  EXPECT_FALSE(deposit_of(under("one-thrd"), rules, 1000, "USD", problems));
  ASSERT_EQ(problems.size(), 1u);
  EXPECT_NE(problems[0].message.find("Did you mean one-third?"), std::string::npos);
  EXPECT_EQ(deposit_of(under("ten-percent-or-1000"), rules, 20'000'000, "EUR", problems)->amount_minor, 2'000'000);
  EXPECT_EQ(problems.size(), 2u);
}

}  // namespace
}  // namespace duskwire::estimate
