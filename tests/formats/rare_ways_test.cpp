// SPDX-License-Identifier: Apache-2.0
// The rarer ways through the reader of jobs: what no person writes, and a program or an attacker might.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <limits>

#include "formats/documents.hpp"
#include "formats/job_reader.hpp"
#include "formats/requests.hpp"
#include "formats/ruleset_file.hpp"

namespace duskwire::formats {
namespace {

using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::Not;

struct Planted {
  const char* pointer;
  Json value;
};

TEST(RareWays, AValueOfAnotherKindIsAnErrorAtItsPlace) {
  for (const Planted& each : {Planted{"/luminaires/0/item", 5},
                              {"/luminaires/0/id", ""},
                              {"/luminaires/0/position", 5},
                              {"/cables/0/from", ""},
                              {"/cables/0", 5},
                              {"/plan/areas/0/outline", Json::array()},
                              {"/views/0/surfaces/0/outline_px", 5},
                              {"/views/0/surfaces/0/outline_px", Json::array()},
                              {"/catalogue/transformers/0/taps_v", 5},
                              {"/catalogue/transformers/0/taps_v", Json(std::vector<int>(25, 1))},
                              {"/transformers/0/controls", 5},
                              {"/transformers/0/controls/0", 5},
                              {"/programme/0/days", 5},
                              {"/programme/0/days/0", 5},
                              {"/visits/0/log/0", 5},
                              {"/visits/0/log/0/facts", 5},
                              {"/visits/0/log/1/reading", "12.7"}}) {
    const ReadJob read = read_job(full_job_with(each.pointer, each.value));
    EXPECT_FALSE(read.job) << each.pointer;
    EXPECT_THAT(error_pointers(read.problems), Contains(each.pointer)) << told(read.problems);
  }
}

TEST(RareWays, WhatMayBeLeftEmptyMayBe) {
  for (const Planted& each : {Planted{"/luminaires/0/joint", ""},
                              {"/cables/0/path", Json::array()},
                              {"/views/0/calibration/adjoining_px", Json::array()}}) {
    const std::vector<std::string> wrong = error_pointers(read_job(full_job_with(each.pointer, each.value)).problems);
    EXPECT_THAT(wrong, Not(Contains(each.pointer)));
  }
  EXPECT_TRUE(read_job(full_job_with("/cables/1/path", Json::array())).job);
}

TEST(RareWays, ATruthInQuotesIsToldAsSuch) {
  EXPECT_THAT(told(read_job(full_job_with("/site/corners/few_lamps", "false")).problems), HasSubstr("without quotes"));
}

TEST(RareWays, TemperaturesAscendAtBothEnds) {
  EXPECT_THAT(told(read_job(full_job_with("/site/corners/cable_hot_c", -9)).problems), HasSubstr("must ascend"));
}

// A tree that a program built may hold what no text can.
TEST(RareWays, WhatIsNoNumberIsNotInRange) {
  for (const double value : {std::numeric_limits<double>::infinity(), std::numeric_limits<double>::quiet_NaN()}) {
    Json tree = Json::parse(full_job_text());
    tree["site"]["mains_v"] = value;
    EXPECT_THAT(error_pointers(read_job_tree_leniently(tree).problems), Contains("/site/mains_v"));
  }
}

// Which keys were there is looked up in another way from two dozen on.
TEST(RareWays, AKeyThatComesTwiceAmongManyIsFound) {
  for (const int count : {5, 23, 24, 25, 60}) {
    std::string text = "{";
    for (int i = 0; i < count; ++i) text += "\"k" + std::to_string(i) + "\":1,";
    EXPECT_TRUE(parse_text(text + "\"last\":1}").problems.empty()) << count;
    for (const char* twice : {"k0", "k4"}) {
      const ParsedText parsed = parse_text(text + "\"last\":1,\"" + twice + "\":2}");
      ASSERT_EQ(parsed.problems.size(), 1u) << count;
      EXPECT_EQ(parsed.problems[0].value, twice);
    }
  }
}

TEST(RareWays, ManyWarningsAreCutShortAsAWarning) {
  Json tree = Json::parse(full_job_text());
  for (int i = 0; i < 1100; ++i) tree["joints"].push_back({{"id", "more-" + std::to_string(i)}, {"burid", true}});
  const ReadJob read = read_job(tree.dump());
  EXPECT_TRUE(read.job);
  ASSERT_EQ(read.problems.size(), 1001u) << told(read.problems);
  EXPECT_EQ(read.problems.back().severity, Severity::warning);
  EXPECT_EQ(read.problems.back().message, "100 more problems are not listed: mend these first.");
}

// Prices of any goods, where nothing is converted.
TEST(RareWays, TheCurrencyOfGoodsOfEachKindIsComparedWithTheSites) {
  Json tree = Json::parse(full_job_text());
  tree["catalogue"]["currency"] = "USD";
  for (const char* last : {"luminaires", "transformers", "cables", "connectors"}) {
    EXPECT_THAT(told(read_job_leniently(tree.dump()).problems), HasSubstr("nothing is converted")) << last;
    tree["catalogue"].erase(last);
  }
  EXPECT_THAT(told(read_job_leniently(tree.dump()).problems), Not(HasSubstr("nothing is converted")));
}

TEST(RareWays, AnIntensityFileThatCannotBeReadIsAWarning) {
  const std::string sound = "IESNA91\r\nTILT=NONE\r\n1 -1 1 2 1 1 2 0 0 0\r\n1 1 5\r\n0 90\r\n0\r\n100 0\r\n";
  struct Case {
    std::string text;
    bool is_told;
  };
  for (const Case& each : {Case{sound, false}, Case{sound + "7 8 9\r\n", false}, Case{"no intensities", true},
                           Case{sound.substr(0, sound.size() - 4), true}}) {
    const ReadJob read = read_job(full_job_with("/catalogue/luminaires/0/intensity_file", each.text));
    EXPECT_TRUE(read.job) << told(read.problems);
    EXPECT_EQ(told(read.problems).find("The intensity file cannot be used") != std::string::npos, each.is_told)
        << each.text << told(read.problems);
  }
}

TEST(RareWays, ARequestMayNameNoTaps) {
  EXPECT_TRUE(read_ask_request(R"({"lamps": 8, "lamp_w": 4, "length_m": 60, "taps_v": []})").request);
}

TEST(RareWays, TablesOfARuleAreAnObject) {
  const char* ruleset = R"({"format": "duskwire-ruleset", "version": 1, "id": "mine", "notice": "Local code decides.",
    "rules": [{"id": "cover", "check": "cover", "severity": "warning", "tables": 5}]})";
  EXPECT_THAT(error_pointers(read_ruleset(ruleset).problems), Contains("/rules/0/tables"));
}

}  // namespace
}  // namespace duskwire::formats
