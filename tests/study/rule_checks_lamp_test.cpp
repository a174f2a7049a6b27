// SPDX-License-Identifier: Apache-2.0
#include <gtest/gtest.h>

#include "study/rule_fixture.hpp"

namespace duskwire::study {
namespace {

using namespace rule_testing;

TEST(LampWindow, BothEndsAreJudgedInTheWorstCorner) {
  Garden g = garden();
  const Rule rule = rule_of("lamp-window");
  g.report.lamps[1].worst_low_v = 10;
  g.report.lamps[1].worst_high_v = 15;
  EXPECT_TRUE(judge_by(g, rule).empty());
  g.report.lamps[1].worst_low_v = 10 - hair;
  g.report.lamps[1].worst_low_corner = "mains low, cable hot";
  Findings findings = judge_by(g, rule);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].subject, "F2");
  EXPECT_EQ(findings[0].pointer, "/luminaires/1");
  EXPECT_NE(findings[0].message.find("mains low, cable hot"), std::string::npos);
  g.report.lamps[1].worst_high_v = 15 + hair;
  EXPECT_EQ(judge_by(g, rule).size(), 2u);
}

TEST(LampWindow, LampWithoutASupplyIsNotJudged) {
  Garden g = garden();
  g.report.lamps[1].worst_low_v = 0;
  g.report.lamps[1].output.clear();
  EXPECT_TRUE(judge_by(g, rule_of("lamp-window")).empty());
}

TEST(VoltageDrop, ShareOfTheTapLostUpToTheFarthestLamp) {
  Garden g = garden();
  const Rule rule = rule_of("voltage-drop", {{"drop_pct", 5}});
  g.report.outputs[0].terminal_v = 12;
  g.report.lamps[1].nominal_v = 11.4;  // 0.6 of 12
  EXPECT_TRUE(judge_by(g, rule).empty());
  g.report.lamps[1].nominal_v = 11.4 - 12 * hair;
  const Findings findings = judge_by(g, rule);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].subject, "A");
  EXPECT_EQ(findings[0].unit, "%");
  EXPECT_NE(findings[0].message.find("F2"), std::string::npos);
}

TEST(VoltageDrop, OneFindingPerOutputCountsTheLampsBeyond) {
  Garden g = garden();
  g.report.lamps[0].nominal_v = 10.5;
  g.report.lamps[1].nominal_v = 10.2;
  const Findings findings = judge_by(g, rule_of("voltage-drop", {{"drop_pct", 10}}));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_NE(findings[0].message.find("2 lamps"), std::string::npos) << findings[0].message;
}

TEST(MixedLamps, HalogenAndLedOnOneOutput) {
  Garden g = garden();
  const Rule rule = rule_of("mixed-lamps");
  EXPECT_TRUE(judge_by(g, rule).empty());
  g.luminaire(1).item = "halogen";
  EXPECT_EQ(breaches(g, rule).size(), 1u);
  g.luminaire(0).item = "halogen";
  EXPECT_TRUE(judge_by(g, rule).empty());
}

TEST(MixedLamps, OnTwoOutputsTheyMayBe) {
  Garden g = garden();
  g.luminaire(1).item = "halogen";
  g.report.lamps[1].output = "B";
  EXPECT_TRUE(judge_by(g, rule_of("mixed-lamps")).empty());
}

}  // namespace
}  // namespace duskwire::study
