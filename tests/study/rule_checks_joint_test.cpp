// SPDX-License-Identifier: Apache-2.0
#include <gtest/gtest.h>

#include "study/rule_fixture.hpp"

namespace duskwire::study {
namespace {

using namespace rule_testing;

// J1 brings C1, C2 and the lead of F1 together: three wires per conductor.

TEST(ConnectorFill, AsManyWiresAsItHoldsAndNotOneMore) {
  Garden g = garden();
  const Rule rule = rule_of("connector-fill");
  EXPECT_TRUE(judge_by(g, rule).empty());
  g.joint().connector = "gel-2";
  const Findings findings = judge_by(g, rule);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].subject, "J1");
  EXPECT_DOUBLE_EQ(*findings[0].measured, 3);
  EXPECT_DOUBLE_EQ(*findings[0].limit, 2);
  EXPECT_EQ(breaches_after_cure(g, rule), 0);
}

TEST(ConnectorFill, CureIsTheCheapestThatFits) {
  Garden g = garden();
  g.joint().connector = "gel-2";
  const Findings findings = judge_by(g, rule_of("connector-fill"));
  ASSERT_EQ(findings.size(), 1u);
  ASSERT_EQ(findings[0].cures.size(), 1u);
  ASSERT_EQ(findings[0].cures[0].changes.size(), 1u);
  EXPECT_EQ(findings[0].cures[0].changes[0].text, "gel-3");
}

TEST(ConnectorFill, WireOfASizeItDoesNotTakeIsFound) {
  Garden g = garden();
  const Rule rule = rule_of("connector-fill");
  g.job.catalogue.connectors[1].fills[0].area_max_mm2 = 3.29;  // 12 AWG is 3.31; 0.5 % apart counts as the same
  EXPECT_EQ(breaches(g, rule).size(), 1u);
  EXPECT_FALSE(breaches(g, rule)[0].measured.has_value());
  g.job.catalogue.connectors[1].fills[0].area_max_mm2 = 3.31;
  EXPECT_TRUE(judge_by(g, rule).empty());
}

TEST(ConnectorFill, TooFewWiresAreFound) {
  Garden g = garden();
  g.job.catalogue.connectors[1].fills[0].count_min = 4;
  g.job.catalogue.connectors[1].fills[0].count_max = 6;
  const Findings findings = judge_by(g, rule_of("connector-fill"));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_DOUBLE_EQ(*findings[0].limit, 4);
}

TEST(ConnectorFill, LinkedPiecesCountWhereTheyAreFitted) {
  Garden g = garden();
  const Rule rule = rule_of("connector-fill");
  for (int i = 0; i < 2; ++i) {  // five wires: two linked pieces of three per conductor hold four, three hold five
    g.job.luminaires.push_back(g.luminaire(0));
    g.job.luminaires.back().id = "G" + std::to_string(i);
  }
  g.joint().connector_count = 6;
  EXPECT_TRUE(judge_by(g, rule).empty());
  g.joint().connector_count = 5;
  const Findings findings = judge_by(g, rule);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_DOUBLE_EQ(*findings[0].limit, 4);
  EXPECT_EQ(breaches_after_cure(g, rule), 0);
}

TEST(ConnectorFill, UnchosenConnectorAndUnknownSizeAreNotes) {
  Garden g = garden();
  g.joint().connector.clear();
  Findings findings = judge_by(g, rule_of("connector-fill"));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].severity, Severity::note);
  g = garden();
  g.job.catalogue.luminaires[0].lead_area_mm2 = 0;
  findings = judge_by(g, rule_of("connector-fill"));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].severity, Severity::note);
}

TEST(ConnectorCount, BothConductorsInOnePieceAreFoundAndCured) {
  Garden g = garden();
  const Rule rule = rule_of("connector-count");
  EXPECT_TRUE(judge_by(g, rule).empty());  // not counted: one per conductor
  g.joint().connector_count = 2;
  EXPECT_TRUE(judge_by(g, rule).empty());
  g.joint().connector_count = 1;
  EXPECT_EQ(breaches(g, rule).size(), 1u);
  EXPECT_EQ(breaches_after_cure(g, rule), 0);
}

TEST(ConnectorCount, BoxThatKeepsThemApartMayHoldBoth) {
  Garden g = garden();
  g.job.catalogue.connectors[1].serves_both_conductors = true;
  g.joint().connector_count = 1;
  EXPECT_TRUE(judge_by(g, rule_of("connector-count")).empty());
  g.joint().connector_count = 0;
  EXPECT_EQ(breaches(g, rule_of("connector-count")).size(), 1u);
}

TEST(ConnectorSealed, InTheGroundOnly) {
  Garden g = garden();
  const Rule rule = rule_of("connector-sealed");
  EXPECT_TRUE(judge_by(g, rule).empty());
  g.job.catalogue.connectors.push_back(g.job.catalogue.connectors[1]);
  g.job.catalogue.connectors.back().id = "nut";
  g.job.catalogue.connectors.back().sealed = false;
  g.joint().connector = "nut";
  EXPECT_EQ(breaches(g, rule).size(), 1u);
  EXPECT_EQ(breaches_after_cure(g, rule), 0);
  g.joint().buried = false;
  EXPECT_TRUE(judge_by(g, rule).empty());
}

TEST(ConnectorHeld, InTheGroundOnly) {
  Garden g = garden();
  const Rule rule = rule_of("connector-held");
  EXPECT_TRUE(judge_by(g, rule).empty());
  g.job.catalogue.connectors.push_back(g.job.catalogue.connectors[1]);
  g.job.catalogue.connectors.back().id = "loose";
  g.job.catalogue.connectors.back().mechanically_held = false;
  g.joint().connector = "loose";
  EXPECT_EQ(breaches(g, rule).size(), 1u);
  EXPECT_EQ(breaches_after_cure(g, rule), 0);
  g.joint().buried = false;
  EXPECT_TRUE(judge_by(g, rule).empty());
}

TEST(ConnectorSealed, NoCureIsOfferedWhereNothingFits) {
  Garden g = garden();
  g.stock.connectors.clear();
  for (job::ConnectorItem& item : g.job.catalogue.connectors) item.sealed = false;
  const Findings findings = judge_by(g, rule_of("connector-sealed"));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_TRUE(findings[0].cures.empty());
}

}  // namespace
}  // namespace duskwire::study
