// SPDX-License-Identifier: Apache-2.0
#include "formats/embedded.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "formats/documents.hpp"

namespace duskwire::formats {
namespace {

TEST(Embedded, TheStockIsTheFileByteForByte) {
  EXPECT_EQ(embedded_stock_catalogue(), project_file("data/catalogue/stock.json"));
}

TEST(Embedded, EachRulesetIsItsFileByteForByte) {
  const std::vector<std::string> ids = embedded_ruleset_ids();
  for (const char* known : {"us", "us-cautious", "ca", "iec"}) {
    EXPECT_NE(std::find(ids.begin(), ids.end(), known), ids.end()) << known;
  }
  for (const std::string& id : ids)
    EXPECT_EQ(embedded_ruleset(id), project_file("data/rulesets/" + id + ".json")) << id;
}

TEST(Embedded, WhatIsNotThereIsEmpty) {
  EXPECT_EQ(embedded_ruleset("mars"), "");
  EXPECT_EQ(embedded_ruleset(""), "");
  EXPECT_EQ(embedded_ruleset("../catalogue/stock"), "");
}

}  // namespace
}  // namespace duskwire::formats
