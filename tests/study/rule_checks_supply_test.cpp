// SPDX-License-Identifier: Apache-2.0
#include <gtest/gtest.h>

#include "study/rule_fixture.hpp"

namespace duskwire::study {
namespace {

using namespace rule_testing;

TEST(TransformerHeight, LowerEdgeIsFoundAndCured) {
  Garden g = garden();
  const Rule rule = rule_of("transformer-height", {{"height_m", 0.3}});
  g.transformer().mounting_height_m = 0.3;
  EXPECT_TRUE(judge_by(g, rule).empty());
  g.transformer().mounting_height_m = 0.3 - hair;
  EXPECT_EQ(breaches(g, rule).size(), 1u);
  EXPECT_EQ(breaches_after_cure(g, rule), 0);
  g.transformer().mounting = job::Mounting::indoors;
  EXPECT_TRUE(judge_by(g, rule).empty());
}

TEST(TransformerListing, OnlyOutdoors) {
  Garden g = garden();
  const Rule rule = rule_of("transformer-listing");
  EXPECT_TRUE(judge_by(g, rule).empty());
  g.job.catalogue.transformers[0].outdoor_listed = false;
  EXPECT_EQ(breaches(g, rule).size(), 1u);
  g.transformer().mounting = job::Mounting::indoors;
  EXPECT_TRUE(judge_by(g, rule).empty());
}

TEST(Receptacle, ProtectionAndCoverAreTwoRules) {
  Garden g = garden();
  EXPECT_TRUE(judge_by(g, rule_of("receptacle-gfci")).empty());
  EXPECT_TRUE(judge_by(g, rule_of("receptacle-cover")).empty());
  g.job.plan.receptacles[0].gfci = false;
  EXPECT_EQ(breaches(g, rule_of("receptacle-gfci")).size(), 1u);
  EXPECT_TRUE(judge_by(g, rule_of("receptacle-cover")).empty());
  g.job.plan.receptacles[0].gfci = true;
  g.job.plan.receptacles[0].in_use_cover = false;
  EXPECT_TRUE(judge_by(g, rule_of("receptacle-gfci")).empty());
  EXPECT_EQ(breaches(g, rule_of("receptacle-cover")).size(), 1u);
}

TEST(Receptacle, UnknownReceptacleIsANote) {
  Garden g = garden();
  g.transformer().receptacle.clear();
  const Findings findings = judge_by(g, rule_of("receptacle-gfci"));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].severity, Severity::note);
  EXPECT_NE(findings[0].message.find("T1"), std::string::npos);
}

TEST(ExtensionCord, IsFoundAndCured) {
  Garden g = garden();
  const Rule rule = rule_of("extension-cord");
  EXPECT_TRUE(judge_by(g, rule).empty());
  g.transformer().extension_cord = true;
  EXPECT_EQ(breaches(g, rule).size(), 1u);
  EXPECT_EQ(breaches_after_cure(g, rule), 0);
}

TEST(BranchCircuit, RatingOfTheCircuitIsLimited) {
  Garden g = garden();
  const Rule rule = rule_of("branch-circuit", {{"limit_a", 20}});
  EXPECT_TRUE(judge_by(g, rule).empty());
  g.job.plan.receptacles[0].circuit_a = 20 + hair;
  const Findings findings = judge_by(g, rule);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].pointer, "/plan/receptacles/0");
  g.transformer().receptacle.clear();  // nothing of ours hangs on it
  EXPECT_TRUE(judge_by(g, rule).empty());
}

TEST(BranchLoad, TransformersOnOneReceptacleAddUp) {
  Garden g = garden();
  const Rule rule = rule_of("branch-load", {{"share_pct", 80}});
  g.job.plan.receptacles[0].circuit_a = 15;  // 12 A at 120 V: 1440 VA
  g.report.transformers[0].worst_load_va = 700;
  g.report.transformers[0].copper_loss_w = 15;
  g.report.transformers[0].core_loss_w = 5;
  job::Transformer second = g.transformer();
  second.id = "T2";
  second.outputs.clear();
  g.job.transformers.push_back(second);
  TransformerReport report = g.report.transformers[0];
  report.id = "T2";
  g.report.transformers.push_back(report);
  EXPECT_TRUE(judge_by(g, rule).empty());
  g.report.transformers[1].core_loss_w += 120 * hair;
  const Findings findings = judge_by(g, rule);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_DOUBLE_EQ(*findings[0].limit, 12);
  EXPECT_NE(findings[0].message.find("T1 and T2"), std::string::npos);
}

TEST(BranchLoad, UnknownCircuitIsANote) {
  Garden g = garden();
  g.job.plan.receptacles[0].circuit_a.reset();
  const Findings findings = judge_by(g, rule_of("branch-load", {{"share_pct", 80}}));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].severity, Severity::note);
}

}  // namespace
}  // namespace duskwire::study
