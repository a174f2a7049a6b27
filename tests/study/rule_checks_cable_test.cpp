// SPDX-License-Identifier: Apache-2.0
#include <gtest/gtest.h>

#include "study/rule_fixture.hpp"

namespace duskwire::study {
namespace {

using namespace rule_testing;

TEST(Ampacity, TableCountsBeforeTheItem) {
  Garden g = garden();
  const Rule rule = rule_of("ampacity", {{"share_pct", 100}}, {{"ampacity_a", {{"12awg", 16}}}});
  g.report.cables[0].worst_current_a = 16;
  EXPECT_TRUE(judge_by(g, rule).empty());
  g.report.cables[0].worst_current_a = 16 + hair;
  const Findings findings = judge_by(g, rule);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].subject, "C1");
  EXPECT_EQ(findings[0].pointer, "/cables/0");
}

TEST(Ampacity, ItemCountsWhereTheTableIsSilent) {
  Garden g = garden();
  const Rule rule = rule_of("ampacity", {{"share_pct", 80}}, {{"ampacity_a", {{"14awg", 1}}}});
  g.report.cables[1].worst_current_a = 16;  // 80 % of the item's 20 A
  EXPECT_TRUE(judge_by(g, rule).empty());
  g.report.cables[1].worst_current_a = 16 + hair;
  EXPECT_EQ(judge_by(g, rule).size(), 1u);
}

TEST(Ampacity, MetricSizesHaveTheirOwnKey) {
  Garden g = garden();
  g.job.catalogue.cables[1].gauge_awg.reset();
  g.job.catalogue.cables[1].area_mm2 = 2.5;
  g.report.cables[0].worst_current_a = 10;
  EXPECT_EQ(judge_by(g, rule_of("ampacity", {{"share_pct", 100}}, {{"ampacity_a", {{"2.5mm2", 9}}}})).size(), 1u);
}

TEST(SmallWireProtection, DeviceMayBeAsLargeAsTheThinnestCableAllows) {
  Garden g = garden();
  const Rule rule = rule_of("small-wire-protection", {}, {{"limit_a", {{"12awg", 20}, {"14awg", 15}}}});
  g.output().limit_a = 20;
  EXPECT_TRUE(judge_by(g, rule).empty());
  g.output().limit_a = 20 + hair;
  EXPECT_EQ(breaches(g, rule).size(), 1u);
  EXPECT_EQ(breaches_after_cure(g, rule), 0);
}

TEST(SmallWireProtection, OneFindingPerOutputForTheThinnestCable) {
  Garden g = garden();
  g.cable(1).item = "14awg-2";
  const Findings findings =
      judge_by(g, rule_of("small-wire-protection", {}, {{"limit_a", {{"12awg", 20}, {"14awg", 15}}}}));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].subject, "A");
  EXPECT_DOUBLE_EQ(*findings[0].measured, 25);
  EXPECT_DOUBLE_EQ(*findings[0].limit, 15);
  EXPECT_NE(findings[0].message.find("cables C1 and C2"), std::string::npos) << findings[0].message;
}

TEST(SmallWireProtection, NoSmallerDeviceIsOfferedThanTheLoadNeeds) {
  Garden g = garden();
  g.report.outputs[0].worst_current_a = 21;
  const Findings findings = judge_by(g, rule_of("small-wire-protection", {}, {{"limit_a", {{"12awg", 20}}}}));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_TRUE(findings[0].cures.empty());
}

TEST(ConductorSize, ThinnerThanTheLeastIsFound) {
  Garden g = garden();
  const Rule rule = rule_of("conductor-size", {{"area_mm2", 1.5}, {"short_area_mm2", 1.0}, {"short_length_m", 3}});
  g.job.catalogue.cables[1].area_mm2 = 1.5;
  EXPECT_TRUE(judge_by(g, rule).empty());
  g.job.catalogue.cables[1].area_mm2 = 1.49;
  EXPECT_EQ(judge_by(g, rule).size(), 1u);  // C1 is 5 m long, C2 2 m
}

TEST(ConductorSize, ShortPieceMayBeThinner) {
  Garden g = garden();
  const Rule rule = rule_of("conductor-size", {{"area_mm2", 1.5}, {"short_area_mm2", 1.0}, {"short_length_m", 3}});
  g.job.catalogue.cables[1].area_mm2 = 1.0;
  g.cable(0).length_m = 3;
  EXPECT_TRUE(judge_by(g, rule).empty());
  g.cable(0).length_m = 3 + hair;
  EXPECT_EQ(judge_by(g, rule).size(), 1u);
  g.job.catalogue.cables[1].area_mm2 = 0.99;
  EXPECT_EQ(judge_by(g, rule).size(), 2u);
}

TEST(CableBurial, IndoorCableInTheGroundIsCuredByATwinMadeForIt) {
  Garden g = garden();
  const Rule rule = rule_of("cable-burial");
  EXPECT_TRUE(judge_by(g, rule).empty());
  job::CableItem indoor = g.job.catalogue.cables[1];
  indoor.id = "indoor";
  indoor.direct_burial = false;
  g.job.catalogue.cables.push_back(indoor);
  g.cable(0).item = "indoor";
  EXPECT_EQ(breaches(g, rule).size(), 1u);
  EXPECT_EQ(breaches_after_cure(g, rule), 0);
  g.cable(0).depth_m = 0;
  EXPECT_TRUE(judge_by(g, rule).empty());
  g.cable(0).depth_m.reset();  // the plan says it lies under the lawn
  EXPECT_EQ(judge_by(g, rule).size(), 1u);
  g.cable(0).sleeve = "S1";
  EXPECT_TRUE(judge_by(g, rule).empty());
}

TEST(Slack, TooLittleAtAFixtureIsFoundAndCured) {
  Garden g = garden();
  const Rule rule = rule_of("slack", {}, {{"slack_m", {{"luminaire", 0.3}}}});
  g.cable(1).slack_to_m = 0.3;
  EXPECT_TRUE(judge_by(g, rule).empty());
  g.cable(1).slack_to_m = 0.3 - hair;
  const Findings findings = judge_by(g, rule);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].subject, "C2");
  EXPECT_EQ(breaches_after_cure(g, rule), 0);
}

TEST(Slack, FixtureOnItsOwnLeadIsJudgedToo) {
  Garden g = garden();
  const Rule rule = rule_of("slack", {}, {{"slack_m", {{"luminaire", 0.3}}}});
  g.luminaire(0).slack_m = 0;
  const Findings findings = judge_by(g, rule);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].subject, "F1");
  EXPECT_EQ(findings[0].pointer, "/luminaires/0");
}

TEST(Slack, SplicesAndTransformersCountOnlyWhereTheRuleNamesThem) {
  Garden g = garden();
  g.job.practice.slack_at_splice_m = 0.2;
  g.job.practice.slack_at_transformer_m = 0.9;
  EXPECT_TRUE(judge_by(g, rule_of("slack", {}, {{"slack_m", {{"luminaire", 0.3}}}})).empty());
  const Rule all = rule_of("slack", {}, {{"slack_m", {{"luminaire", 0.3}, {"splice", 0.3}, {"transformer", 1}}}});
  EXPECT_EQ(judge_by(g, all).size(), 3u);  // C1 at A and at J1, C2 at J1
}

}  // namespace
}  // namespace duskwire::study
