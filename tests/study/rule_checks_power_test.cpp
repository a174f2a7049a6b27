// SPDX-License-Identifier: Apache-2.0
#include <gtest/gtest.h>

#include "study/rule_fixture.hpp"

namespace duskwire::study {
namespace {

using namespace rule_testing;

TEST(TapVoltage, TapMayReachTheLimitButNotPassIt) {
  Garden g = garden();
  const Rule rule = rule_of("tap-voltage", {{"limit_v", 15}});
  g.output().tap_v = 15;
  EXPECT_TRUE(judge_by(g, rule).empty());
  g.output().tap_v = 15 + hair;
  const Findings findings = judge_by(g, rule);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].subject, "A");
  EXPECT_EQ(findings[0].pointer, "/transformers/0/outputs/0");
  EXPECT_EQ(findings[0].unit, "V");
}

TEST(OutputCurrent, WorstCurrentCounts) {
  Garden g = garden();
  const Rule rule = rule_of("output-current", {{"limit_a", 25}});
  g.report.outputs[0].current_a = 30;  // nominal is not asked
  g.report.outputs[0].worst_current_a = 25;
  EXPECT_TRUE(judge_by(g, rule).empty());
  g.report.outputs[0].worst_current_a = 25 + hair;
  const Findings findings = judge_by(g, rule);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_DOUBLE_EQ(*findings[0].measured, 25 + hair);
  EXPECT_DOUBLE_EQ(*findings[0].limit, 25);
}

TEST(OutputProtection, LargerDeviceIsFoundAndCuredByASmallerOne) {
  Garden g = garden();
  const Rule rule = rule_of("output-protection", {{"limit_a", 25}});
  EXPECT_TRUE(judge_by(g, rule).empty());  // the item's 25 A
  g.output().limit_a = 25 + hair;
  EXPECT_EQ(breaches(g, rule).size(), 1u);
  EXPECT_EQ(breaches_after_cure(g, rule), 0);
}

TEST(OutputProtection, NoDeviceAtAllIsFound) {
  Garden g = garden();
  g.job.catalogue.transformers[0].output_limit_a = 0;
  const Findings findings = judge_by(g, rule_of("output-protection", {{"limit_a", 25}}));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_NE(findings[0].message.find("no protective device"), std::string::npos);
}

TEST(OutputLoad, ShareOfTheDeviceAsFitted) {
  Garden g = garden();
  const Rule rule = rule_of("output-load", {{"share_pct", 80}});
  g.output().limit_a = 10;
  g.report.outputs[0].worst_current_a = 8;
  EXPECT_TRUE(judge_by(g, rule).empty());
  g.report.outputs[0].worst_current_a = 8 + hair;
  EXPECT_EQ(judge_by(g, rule).size(), 1u);
}

TEST(OutputLoad, WithoutAShareTheShopsHabitCounts) {
  Garden g = garden();
  const Rule rule = rule_of("output-load");
  g.report.outputs[0].worst_current_a = 22;
  g.job.practice.output_load_pct = 90;
  EXPECT_TRUE(judge_by(g, rule).empty());
  g.job.practice.output_load_pct = 87;
  EXPECT_EQ(judge_by(g, rule).size(), 1u);
}

TEST(OutputLoad, OverloadIsToldOnceByTheWorseRule) {
  Garden g = garden();
  Ruleset ruleset;
  ruleset.id = "set";
  ruleset.rules = {rule_of("output-load", {{"share_pct", 100}}), rule_of("output-load", {{"share_pct", 80}})};
  ruleset.rules[0].id = "overload";
  ruleset.rules[1].id = "headroom";
  ruleset.rules[1].severity = Severity::warning;
  g.report.outputs[0].worst_current_a = 26;
  Findings findings = judge(g.job, ruleset, g.report, g.stock);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].id, "set/overload");
  g.report.outputs[0].worst_current_a = 24;
  findings = judge(g.job, ruleset, g.report, g.stock);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].id, "set/headroom");
}

TEST(OutputVa, VoltsAtTheTerminalsTimesWorstAmperes) {
  Garden g = garden();
  const Rule rule = rule_of("output-va", {{"limit_va", 300}});
  g.report.outputs[0].terminal_v = 15;
  g.report.outputs[0].worst_current_a = 20;
  EXPECT_TRUE(judge_by(g, rule).empty());
  g.report.outputs[0].worst_current_a = 20 + hair;
  const Findings findings = judge_by(g, rule);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].unit, "VA");
}

TEST(TransformerLoad, RatingMayBeUsedUpButNotPassed) {
  Garden g = garden();
  const Rule rule = rule_of("transformer-load", {{"share_pct", 100}});
  g.report.transformers[0].worst_load_va = 300;
  EXPECT_TRUE(judge_by(g, rule).empty());
  g.report.transformers[0].worst_load_va = 300 + hair;
  const Findings findings = judge_by(g, rule);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].pointer, "/transformers/0");
}

TEST(TransformerLoad, StarvedLampsCountWithTheirRatedVa) {
  Garden g = garden();
  g.report.transformers[0].worst_load_va = 250;
  g.report.transformers[0].lamp_va = 380;
  const Findings findings = judge_by(g, rule_of("transformer-load", {{"share_pct", 100}}));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_DOUBLE_EQ(*findings[0].measured, 380);
}

TEST(TransformerLoad, WithoutAShareTheShopsHabitCounts) {
  Garden g = garden();
  const Rule rule = rule_of("transformer-load");
  g.report.transformers[0].worst_load_va = 240;
  EXPECT_TRUE(judge_by(g, rule).empty());
  g.report.transformers[0].worst_load_va = 240 + hair;
  EXPECT_EQ(judge_by(g, rule).size(), 1u);
}

}  // namespace
}  // namespace duskwire::study
