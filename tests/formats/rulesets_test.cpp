// SPDX-License-Identifier: Apache-2.0
// The rulesets as they are shipped: they read, every rule can be judged, every rule says where it comes from, and the
// limits are those that were read in the sources named in the rules.
#include <gtest/gtest.h>

#include <fstream>
#include <set>
#include <sstream>

#include "formats/ruleset_file.hpp"

namespace duskwire::formats {
namespace {

study::Ruleset ruleset(const std::string& id) {
  std::ifstream file(std::string(DUSKWIRE_SOURCE_DIR) + "/data/rulesets/" + id + ".json");
  std::stringstream text;
  text << file.rdbuf();
  const ReadRuleset read = read_ruleset(text.str());
  for (const Problem& problem : read.problems) ADD_FAILURE() << id << problem.pointer << ": " << problem.message;
  return read.ruleset.value_or(study::Ruleset{});
}

const std::vector<std::string> all = {"us", "us-cautious", "ca", "iec"};

const study::Rule& rule(const study::Ruleset& set, const std::string& id) {
  for (const study::Rule& one : set.rules) {
    if (one.id == id) return one;
  }
  throw std::runtime_error(set.id + " has no rule " + id);
}

class EachRuleset : public ::testing::TestWithParam<std::string> {};
INSTANTIATE_TEST_SUITE_P(Shipped, EachRuleset, ::testing::ValuesIn(all),
                         [](const auto& info) { return info.param == "us-cautious" ? "us_cautious" : info.param; });

TEST_P(EachRuleset, CanBeJudgedWhole) {
  const study::Ruleset set = ruleset(GetParam());
  EXPECT_EQ(set.id, GetParam());
  EXPECT_GE(set.rules.size(), 25u);
  for (const study::FlawedRule& flawed : study::flawed_rules(set))
    ADD_FAILURE() << flawed.rule << ": " << flawed.reason;
}

TEST_P(EachRuleset, SaysThatOthersDecide) {
  const std::string notice = ruleset(GetParam()).notice;
  EXPECT_NE(notice.find("Local code"), std::string::npos);
  EXPECT_NE(notice.find("licensed electrician decide"), std::string::npos);
}

TEST_P(EachRuleset, EveryRuleHasASourceOrSaysThatItHasNone) {
  for (const study::Rule& one : ruleset(GetParam()).rules) {
    const study::Provenance& source = one.provenance;
    EXPECT_FALSE(one.title.empty()) << one.id;
    EXPECT_FALSE(source.note.empty() && source.clause.empty()) << one.id;
    if (source.status == "common practice, no source") {
      EXPECT_TRUE(source.clause.empty()) << one.id;
    } else {
      EXPECT_FALSE(source.clause.empty()) << one.id;
    }
    if (source.status == "seen") {
      EXPECT_NE(source.note.find("seen"), std::string::npos) << one.id;
    }
  }
}

TEST_P(EachRuleset, CoversEveryMatterThatIsChecked) {
  std::set<std::string> in_force;
  for (const study::Rule& one : ruleset(GetParam()).rules) {
    if (study::is_in_force(one)) in_force.insert(one.check);
  }
  for (const char* check : {"tap-voltage",
                            "output-current",
                            "output-load",
                            "transformer-load",
                            "ampacity",
                            "small-wire-protection",
                            "cover-depth",
                            "water-distance",
                            "transformer-water",
                            "transformer-height",
                            "receptacle-gfci",
                            "receptacle-cover",
                            "extension-cord",
                            "voltage-drop",
                            "connector-fill",
                            "connector-count",
                            "connector-sealed",
                            "connector-held",
                            "slack",
                            "splice-under-surface",
                            "mixed-lamps",
                            "lamp-window"}) {
    EXPECT_TRUE(in_force.contains(check)) << check;
  }
}

TEST_P(EachRuleset, AlternativesNameARuleInForce) {
  const study::Ruleset set = ruleset(GetParam());
  for (const study::Rule& one : set.rules) {
    if (study::is_in_force(one)) continue;
    EXPECT_TRUE(study::is_in_force(rule(set, one.alternative_to))) << one.id;
    EXPECT_EQ(one.check, rule(set, one.alternative_to).check) << one.id;
  }
}

// Limits as read in the sources that the rules themselves name.
TEST(Rulesets, LimitsOfTheUnitedStatesAreThoseSeen) {
  const study::Ruleset us = ruleset("us");
  EXPECT_EQ(rule(us, "system-voltage").values.at("limit_v"), 30);
  EXPECT_EQ(rule(us, "contact-voltage").values.at("limit_v"), 15);
  EXPECT_EQ(rule(us, "output-current").values.at("limit_a"), 25);
  EXPECT_EQ(rule(us, "output-protection").values.at("limit_a"), 25);
  EXPECT_EQ(rule(us, "cover").tables.at("cover_m").at("lawn"), 0.15);
  EXPECT_EQ(rule(us, "cover-drive").tables.at("cover_m").at("drive"), 0.45);
  EXPECT_EQ(rule(us, "cover-street").tables.at("cover_m").at("street"), 0.6);
  EXPECT_EQ(rule(us, "water-distance").tables.at("distance_m").at("pool"), 3);
  EXPECT_EQ(rule(us, "branch-circuit").values.at("limit_a"), 20);
}

TEST(Rulesets, CanadaLimitsEachOutputInVoltAmperesAndAmperes) {
  const study::Ruleset ca = ruleset("ca");
  EXPECT_EQ(rule(ca, "output-va").values.at("limit_va"), 300);
  EXPECT_EQ(rule(ca, "output-current").values.at("limit_a"), 25);
}

TEST(Rulesets, IecAsksForFivePercentAndOneAndAHalfSquareMillimetres) {
  const study::Ruleset iec = ruleset("iec");
  EXPECT_EQ(rule(iec, "voltage-drop").values.at("drop_pct"), 5);
  EXPECT_EQ(rule(iec, "conductor-size").values.at("area_mm2"), 1.5);
  EXPECT_EQ(rule(iec, "system-voltage").values.at("limit_v"), 50);
}

TEST(Rulesets, CautiousOneIsNowhereLaxer) {
  const study::Ruleset us = ruleset("us");
  const study::Ruleset cautious = ruleset("us-cautious");
  EXPECT_LT(rule(cautious, "voltage-drop").values.at("drop_pct"), rule(us, "voltage-drop").values.at("drop_pct"));
  EXPECT_LT(rule(cautious, "ampacity").values.at("share_pct"), rule(us, "ampacity").values.at("share_pct"));
  for (const study::Rule& one : us.rules) {
    if (!study::is_in_force(one)) continue;
    const study::Rule& other = rule(cautious, one.id);
    EXPECT_GE(other.severity, one.severity) << one.id;
    for (const auto& [name, table] : one.tables) {
      for (const auto& [key, limit] : table) EXPECT_EQ(other.tables.at(name).at(key), limit) << one.id << " " << key;
    }
  }
}

}  // namespace
}  // namespace duskwire::formats
