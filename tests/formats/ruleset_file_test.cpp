// SPDX-License-Identifier: Apache-2.0
#include "formats/ruleset_file.hpp"

#include <gtest/gtest.h>

#include "formats/documents.hpp"

namespace duskwire::formats {
namespace {

constexpr const char* small = R"({
  "format": "duskwire-ruleset", "version": 1, "id": "mine", "title": "Mine", "notice": "Local code decides.",
  "rules": [
    {"id": "cover", "check": "cover", "severity": "warning", "values": {"limit_m": 0.15},
     "tables": {"cover_m": {"lawn": 0.15, "drive": 0.45}},
     "provenance": {"clause": "", "edition": "", "status": "common practice, no source"}},
    {"id": "deeper", "check": "cover", "severity": "error", "alternative_to": "cover",
     "provenance": {"status": "from memory"}}
  ]
})";

TEST(RulesetFile, EveryFieldArrives) {
  const ReadRuleset read = read_ruleset(small);
  ASSERT_TRUE(read.ruleset) << told(read.problems);
  EXPECT_EQ(read.ruleset->id, "mine");
  EXPECT_EQ(read.ruleset->notice, "Local code decides.");
  const study::Rule& rule = read.ruleset->rules[0];
  EXPECT_EQ(rule.severity, Severity::warning);
  EXPECT_EQ(rule.values.at("limit_m"), 0.15);
  EXPECT_EQ(rule.tables.at("cover_m").at("drive"), 0.45);
  EXPECT_EQ(rule.provenance.status, "common practice, no source");
  EXPECT_EQ(read.ruleset->rules[1].alternative_to, "cover");
}

TEST(RulesetFile, ProblemsAreToldWithTheirPlace) {
  Json tree = Json::parse(small);
  tree["rules"][0]["severity"] = "fatal";
  tree["rules"][0]["values"]["limit_m"] = "deep";
  tree["rules"][0]["tables"]["cover_m"]["lawn"] = true;
  tree["rules"][1]["alternative_to"] = "covert";
  tree["rules"][1]["provenance"]["status"] = "heard";
  const ReadRuleset read = read_ruleset(tree.dump());
  EXPECT_FALSE(read.ruleset);
  EXPECT_EQ(error_pointers(read.problems),
            (std::vector<std::string>{"/rules/0/severity", "/rules/0/values/limit_m", "/rules/0/tables/cover_m/lawn",
                                      "/rules/1/provenance/status", "/rules/1/alternative_to"}))
      << told(read.problems);
}

TEST(RulesetFile, RulesHaveIdsOfTheirOwn) {
  Json tree = Json::parse(small);
  tree["rules"][1]["id"] = "cover";
  EXPECT_FALSE(read_ruleset(tree.dump()).ruleset);
}

TEST(RulesetFile, ARulesetSaysWhoDecides) {
  Json tree = Json::parse(small);
  tree.erase("notice");
  EXPECT_EQ(error_pointers(read_ruleset(tree.dump()).problems), std::vector<std::string>{""});
}

TEST(RulesetFile, TablesMustBeObjects) {
  Json tree = Json::parse(small);
  tree["rules"][0]["tables"]["cover_m"] = 0.15;
  tree["rules"][0]["values"] = 5;
  EXPECT_EQ(error_pointers(read_ruleset(tree.dump()).problems),
            (std::vector<std::string>{"/rules/0/values", "/rules/0/tables/cover_m"}));
}

TEST(RulesetFile, OtherDocumentsAreRefused) {
  EXPECT_EQ(error_pointers(read_ruleset(full_job_text()).problems), std::vector<std::string>{"/format"});
  EXPECT_FALSE(read_ruleset("{").ruleset);
}

}  // namespace
}  // namespace duskwire::formats
