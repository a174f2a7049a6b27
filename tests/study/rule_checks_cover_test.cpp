// SPDX-License-Identifier: Apache-2.0
#include <gtest/gtest.h>

#include "study/rule_fixture.hpp"

namespace duskwire::study {
namespace {

using namespace rule_testing;
using job::GroundKind;

const Tables cover = {{"cover_m", {{"lawn", 0.15}, {"drive", 0.45}, {"other", 0.15}}}};

TEST(CoverDepth, CoverUnderTheLawnIsFoundByTheRouteAndCured) {
  Garden g = garden();
  const Rule rule = rule_of("cover-depth", {}, cover);
  g.cable(0).depth_m = 0.15;
  EXPECT_TRUE(judge_by(g, rule).empty());
  g.cable(0).depth_m = 0.15 - hair;
  const Findings findings = judge_by(g, rule);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].subject, "C1");
  EXPECT_EQ(findings[0].unit, "m");
  EXPECT_NE(findings[0].message.find("the lawn"), std::string::npos);
  EXPECT_EQ(breaches_after_cure(g, rule), 0);
}

TEST(CoverDepth, DriveAcrossTheRouteAsksForMore) {
  Garden g = garden();
  g.job.plan.areas.push_back(square("drive", GroundKind::drive, 2, 0, 10));
  g.cable(0).depth_m = g.cable(1).depth_m = 0.45;
  const Rule rule = rule_of("cover-depth", {}, cover);
  EXPECT_TRUE(judge_by(g, rule).empty());
  g.cable(0).depth_m = 0.45 - hair;
  const Findings findings = judge_by(g, rule);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_NE(findings[0].message.find("a drive"), std::string::npos);
  EXPECT_EQ(breaches_after_cure(g, rule), 0);
}

TEST(CoverDepth, CableSaysItselfWhatItLiesUnder) {
  Garden g = garden();
  g.cable(0).ground = GroundKind::drive;
  EXPECT_EQ(judge_by(g, rule_of("cover-depth", {}, cover)).size(), 1u);
  g.cable(0).depth_m = 0.45;
  EXPECT_TRUE(judge_by(g, rule_of("cover-depth", {}, cover)).empty());
}

TEST(CoverDepth, CableOnAWallNeedsNone) {
  Garden g = garden();
  g.cable(0).ground = GroundKind::wall;
  g.cable(0).depth_m = 0;
  EXPECT_TRUE(judge_by(g, rule_of("cover-depth", {}, cover)).empty());
}

TEST(CoverDepth, UnderADriveTheDepthOfTheSleeveCounts) {
  Garden g = garden();
  g.job.plan.areas.push_back(square("drive", GroundKind::drive, 2, 4, 2));
  g.job.plan.sleeves = {{"S1", {{2, 5}, {4, 5}}, 40, 0.45, {}, {}}};
  g.cable(0).sleeve = "S1";
  const Rule rule = rule_of("cover-depth", {}, cover);
  EXPECT_TRUE(judge_by(g, rule).empty());  // 0.2 m elsewhere is enough for the lawn
  g.job.plan.sleeves[0].depth_m = 0.45 - hair;
  const Findings findings = judge_by(g, rule);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_NE(findings[0].message.find("Sleeve S1"), std::string::npos);
}

TEST(CoverDepth, UnnamedGroundIsJudgedByTheGeneralLimitAndSaid) {
  Garden g = garden();
  g.job.plan.areas.clear();
  g.cable(0).depth_m = 0.15 - hair;
  const Rule rule = rule_of("cover-depth", {}, cover);
  EXPECT_EQ(breaches(g, rule).size(), 1u);
  const Findings findings = judge_by(g, rule);
  ASSERT_EQ(findings.size(), 2u);
  EXPECT_EQ(findings[1].severity, Severity::note);
  EXPECT_NE(findings[1].message.find("C1 and C2"), std::string::npos);
}

TEST(CoverDepth, UnknownDepthIsANoteForAllSuchCables) {
  Garden g = garden();
  g.cable(0).depth_m.reset();
  g.cable(1).depth_m.reset();
  const Findings findings = judge_by(g, rule_of("cover-depth", {}, cover));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].severity, Severity::note);
  EXPECT_NE(findings[0].message.find("C1 and C2"), std::string::npos);
}

const Tables surfaces = {{"surface", {{"paving", 1}, {"deck", 0}}}};

TEST(SpliceUnderSurface, OnlySurfacesOfTheRuleCount) {
  Garden g = garden();
  const Rule rule = rule_of("splice-under-surface", {}, surfaces);
  EXPECT_TRUE(judge_by(g, rule).empty());
  g.job.plan.areas.push_back(square("patio", GroundKind::paving, 5 - hair, 4, 3));
  const Findings findings = judge_by(g, rule);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].subject, "J1");
  g.job.plan.areas[1].kind = GroundKind::deck;
  EXPECT_TRUE(judge_by(g, rule).empty());
}

TEST(SpliceUnderSurface, JointBesideThePavingOrNotBuriedIsFine) {
  Garden g = garden();
  const Rule rule = rule_of("splice-under-surface", {}, surfaces);
  g.job.plan.areas.push_back(square("patio", GroundKind::paving, 5 + hair, 4, 3));
  EXPECT_TRUE(judge_by(g, rule).empty());
  g.job.plan.areas[1] = square("patio", GroundKind::paving, 4, 4, 3);
  EXPECT_EQ(judge_by(g, rule).size(), 1u);
  g.joint().buried = false;
  EXPECT_TRUE(judge_by(g, rule).empty());
}

TEST(SpliceUnderSurface, JointWithoutAPositionIsANote) {
  Garden g = garden();
  g.joint().position.reset();
  const Findings findings = judge_by(g, rule_of("splice-under-surface", {}, surfaces));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].severity, Severity::note);
}

}  // namespace
}  // namespace duskwire::study
