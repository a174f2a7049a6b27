// SPDX-License-Identifier: Apache-2.0
#include <gtest/gtest.h>

#include <set>

#include "formats/deposit_rules_file.hpp"

namespace duskwire::formats {
namespace {

TEST(DepositRules, ThoseOfTheProgramSayHowSureTheyAre) {
  const DepositRules& rules = embedded_deposit_rules();
  EXPECT_NE(rules.notice.find("not legal advice"), std::string::npos);
  std::set<std::string> ids;
  for (const estimate::DepositRule& rule : rules.rules) {
    EXPECT_TRUE(ids.insert(rule.id).second) << rule.id;
    EXPECT_TRUE(rule.most_pct || rule.most_minor) << rule.id;
    EXPECT_EQ(rule.most_minor.has_value(), !rule.currency.empty()) << rule.id;
    EXPECT_FALSE(rule.note.empty()) << rule.id;
  }
  EXPECT_TRUE(ids.contains("ten-percent-or-1000"));
}

TEST(DepositRules, ABadFileIsRefusedWithItsPlace) {
  const auto read = read_deposit_rules(
      R"({"format": "duskwire-deposit-rules", "version": 1, "notice": "n", "rules": [{"id": "r", "title": "t",
          "most_pct": 101, "status": "sure"}]})");
  EXPECT_FALSE(read.rules);
  std::set<std::string> pointers;
  for (const Problem& problem : read.problems) pointers.insert(problem.pointer);
  EXPECT_EQ(pointers, (std::set<std::string>{"/rules/0/most_pct", "/rules/0/status"}));
}

}  // namespace
}  // namespace duskwire::formats
