// SPDX-License-Identifier: Apache-2.0
#include "study/rules.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "study/rule_checks.hpp"
#include "study/rule_fixture.hpp"

namespace duskwire::study {
namespace {

using rule_testing::garden;
using rule_testing::Garden;
using rule_testing::judge_by;
using rule_testing::rule_of;

// One rule for each check, with the limits of a usual ruleset.
Ruleset every_check() {
  Ruleset ruleset;
  ruleset.id = "all";
  for (const RuleCheck& check : rule_checks()) {
    Rule rule = rule_of(std::string(check.name));
    rule.id = rule.check;
    for (const std::string& name : check.values) rule.values[name] = 10;
    for (const std::string& name : check.tables) {
      rule.tables[name] = {{"lawn", 0.15}, {"pool", 3}, {"water", 3}, {"other", 0.15}, {"luminaire", 0.3}};
    }
    ruleset.rules.push_back(rule);
  }
  return ruleset;
}

TEST(Rules, AlternativeIsNotJudged) {
  Garden bad = garden();
  bad.transformer().extension_cord = true;
  Rule rule = rule_of("extension-cord");
  EXPECT_EQ(judge_by(bad, rule).size(), 1u);
  rule.alternative_to = "other-rule";
  EXPECT_TRUE(judge_by(bad, rule).empty());
}

TEST(Rules, FindingNamesRulesetRulePlaceAndSource) {
  Garden bad = garden();
  bad.transformer().extension_cord = true;
  Rule rule = rule_of("extension-cord");
  rule.severity = Severity::warning;
  rule.provenance = {"clause 1", "2014", "seen", "there"};
  const Findings findings = judge_by(bad, rule);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].id, "set/the-rule");
  EXPECT_EQ(findings[0].severity, Severity::warning);
  EXPECT_EQ(findings[0].subject, "T1");
  EXPECT_EQ(findings[0].pointer, "/transformers/0");
  EXPECT_EQ(findings[0].provenance.clause, "clause 1");
}

TEST(Rules, UnknownCheckIsSaidNotPassedOver) {
  const Findings findings = judge_by(garden(), rule_of("phase-of-the-moon"));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].severity, Severity::note);
  EXPECT_NE(findings[0].message.find("phase-of-the-moon"), std::string::npos);
}

TEST(Rules, MissingLimitIsSaidNotPassedOver) {
  const Findings findings = judge_by(garden(), rule_of("output-current"));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_NE(findings[0].message.find("limit_a"), std::string::npos);
  const Findings of_table = judge_by(garden(), rule_of("cover-depth"));
  ASSERT_EQ(of_table.size(), 1u);
  EXPECT_NE(of_table[0].message.find("cover_m"), std::string::npos);
}

TEST(Rules, WhatCannotBeSeenIsSaidOnceForRulesOfOneCheck) {
  Garden blind = garden();
  for (job::Cable& cable : blind.job.cables) cable.depth_m.reset();
  Ruleset ruleset;
  ruleset.id = "set";
  ruleset.rules = {rule_of("cover-depth", {}, {{"cover_m", {{"lawn", 0.15}}}}),
                   rule_of("cover-depth", {}, {{"cover_m", {{"lawn", 0.2}}}})};
  EXPECT_EQ(judge(blind.job, ruleset, blind.report, blind.stock).size(), 1u);
}

TEST(Rules, EmptyJobHasNothingToFind) {
  const Garden stocked = garden();
  EXPECT_TRUE(judge(job::Job{}, every_check(), Report{}, stocked.stock).empty());
}

TEST(Rules, JobWithoutReportPlanOrItemsIsJudgedAsFarAsItGoes) {
  Garden bare = garden();
  bare.job.catalogue = {};
  bare.job.plan = {};
  for (job::Cable& cable : bare.job.cables) cable.path.clear(), cable.depth_m.reset();
  for (job::Luminaire& luminaire : bare.job.luminaires) luminaire.position.reset();
  bare.joint().position.reset();
  bare.transformer().position.reset();
  const Findings findings = judge(bare.job, every_check(), Report{}, job::Catalogue{});
  EXPECT_FALSE(findings.empty());
  for (const Finding& finding : findings) {
    if (finding.id == "all/tap-voltage" || finding.id == "all/transformer-height")
      continue;  // 12 V over 10, 0.3 m under 10
    EXPECT_EQ(finding.severity, Severity::note) << finding.id << ": " << finding.message;
  }
}

TEST(Rules, CableThatEndsNowhereAndPolygonOfTwoPointsDoNoHarm) {
  Garden odd = garden();
  odd.job.plan.areas.push_back({"sliver", "", job::GroundKind::pool, {{100, 100}, {101, 100}}, 0, {}, {}, {}});
  odd.cable(0).from = odd.cable(1).to = "nowhere";
  odd.job.luminaires.clear();
  const Findings findings = judge(odd.job, every_check(), odd.report, odd.stock);
  EXPECT_TRUE(std::none_of(findings.begin(), findings.end(),
                           [](const Finding& finding) { return finding.id == "all/water-distance"; }));
}

}  // namespace
}  // namespace duskwire::study
