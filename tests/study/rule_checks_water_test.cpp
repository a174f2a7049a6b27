// SPDX-License-Identifier: Apache-2.0
#include <gtest/gtest.h>

#include "study/rule_fixture.hpp"

namespace duskwire::study {
namespace {

using namespace rule_testing;
using job::GroundKind;

const Rule near_pools = rule_of("water-distance", {{"contact_limit_v", 15}}, {{"distance_m", {{"pool", 3}}}});

// A pool whose nearest edge lies `distance_m` east of luminaire F2 at x = 7, where cable C2 ends.
Garden with_water(GroundKind kind, double distance_m) {
  Garden g = garden();
  g.job.plan.areas.push_back(square("pool", kind, 7 + distance_m, 0, 10));
  return g;
}

std::vector<std::string> subjects(const Findings& findings) {
  std::vector<std::string> ids;
  for (const Finding& finding : findings) ids.push_back(finding.subject);
  return ids;
}

TEST(WaterDistance, LuminaireAndCableKeepTheirDistance) {
  EXPECT_TRUE(judge_by(with_water(GroundKind::pool, 3), near_pools).empty());
  const Findings findings = judge_by(with_water(GroundKind::pool, 3 - hair), near_pools);
  EXPECT_EQ(subjects(findings), (std::vector<std::string>{"F2", "C2"}));
  EXPECT_NEAR(*findings[0].measured, 3, 2 * hair);
  EXPECT_DOUBLE_EQ(*findings[0].limit, 3);
}

TEST(WaterDistance, SpliceKeepsItsDistance) {
  Garden g = with_water(GroundKind::pool, 1);  // 3 m from J1 at x = 5
  g.job.luminaires.pop_back();
  g.job.cables.pop_back();
  EXPECT_TRUE(judge_by(g, near_pools).empty());
  g.joint().position->x_m += hair;
  EXPECT_EQ(subjects(judge_by(g, near_pools)), (std::vector<std::string>{"J1"}));
}

TEST(WaterDistance, PondCountsOnlyWhereTheRuleSays) {
  const Garden g = with_water(GroundKind::water, 1);
  EXPECT_TRUE(judge_by(g, near_pools).empty());
  const Rule near_ponds = rule_of("water-distance", {{"contact_limit_v", 15}}, {{"distance_m", {{"water", 3}}}});
  EXPECT_EQ(judge_by(g, near_ponds).size(), 2u);
}

// The listed light in the pool on a supply listed for it, its cable in a sleeve; J1 is 3.5 m off.
Garden listed_light() {
  Garden g = with_water(GroundKind::pool, 1.5);
  g.luminaire(1).item = "pool-light";
  g.cable(1).sleeve = "S1";
  g.job.catalogue.transformers[0].pool_listed = true;
  return g;
}

TEST(WaterDistance, ListedLightOnAListedSupplyMayBeThere) { EXPECT_TRUE(judge_by(listed_light(), near_pools).empty()); }

TEST(WaterDistance, EachConditionOfTheExceptionIsNeeded) {
  Garden unlisted_supply = listed_light();
  unlisted_supply.job.catalogue.transformers[0].pool_listed = false;
  EXPECT_EQ(judge_by(unlisted_supply, near_pools).size(), 2u);
  Garden high_tap = listed_light();
  high_tap.output().tap_v = 15 + hair;
  EXPECT_EQ(judge_by(high_tap, near_pools).size(), 2u);
  Garden plain_light = listed_light();
  plain_light.luminaire(1).item = "led";
  EXPECT_EQ(subjects(judge_by(plain_light, near_pools)), (std::vector<std::string>{"F2"}));
  Garden bare_cable = listed_light();
  bare_cable.cable(1).sleeve.clear();
  EXPECT_EQ(subjects(judge_by(bare_cable, near_pools)), (std::vector<std::string>{"C2"}));
}

TEST(WaterDistance, InAPondAListedLightAndItsCableMayLie) {
  Garden g = with_water(GroundKind::water, -1);
  const Rule near_ponds = rule_of("water-distance", {{"contact_limit_v", 15}}, {{"distance_m", {{"water", 1}}}});
  EXPECT_EQ(judge_by(g, near_ponds).size(), 2u);
  g.luminaire(1).item = "pool-light";
  EXPECT_TRUE(judge_by(g, near_ponds).empty());
}

TEST(WaterDistance, WhatHasNoPlaceOnThePlanIsANote) {
  Garden g = with_water(GroundKind::pool, 9);
  g.luminaire(0).position.reset();
  g.cable(1).path.clear();
  const Findings findings = judge_by(g, near_pools);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].severity, Severity::note);
  EXPECT_NE(findings[0].message.find("F1 and C2"), std::string::npos) << findings[0].message;
}

TEST(WaterDistance, EmptyPlanIsANoteAndAPlanWithoutWaterIsFine) {
  Garden g = garden();
  EXPECT_TRUE(judge_by(g, near_pools).empty());
  g.job.plan.areas.clear();
  const Findings findings = judge_by(g, near_pools);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].severity, Severity::note);
}

const Rule transformer_rule = rule_of("transformer-water", {}, {{"distance_m", {{"pool", 3}, {"water", 3}}}});

TEST(TransformerWater, KeepsItsDistanceOutdoors) {
  Garden g = garden();
  g.job.plan.areas.push_back(square("pool", GroundKind::pool, 3, 0, 10));  // T1 stands at x = 0
  EXPECT_TRUE(judge_by(g, transformer_rule).empty());
  g.transformer().position->x_m = hair;
  EXPECT_EQ(subjects(judge_by(g, transformer_rule)), (std::vector<std::string>{"T1"}));
  g.transformer().mounting = job::Mounting::indoors;
  EXPECT_TRUE(judge_by(g, transformer_rule).empty());
}

TEST(TransformerWater, WithoutAPositionIsANote) {
  Garden g = garden();
  g.job.plan.areas.push_back(square("pond", GroundKind::water, 9, 0, 10));
  g.transformer().position.reset();
  const Findings findings = judge_by(g, transformer_rule);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].severity, Severity::note);
}

}  // namespace
}  // namespace duskwire::study
