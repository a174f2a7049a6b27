// SPDX-License-Identifier: Apache-2.0
#include "cli/parse.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace duskwire::cli {
namespace {

using ::testing::HasSubstr;

Invocation understood(const std::vector<std::string>& arguments) {
  const auto parsed = parse(arguments, {});
  const auto* outcome = std::get_if<Outcome>(&parsed);
  EXPECT_EQ(outcome, nullptr) << (outcome == nullptr ? "" : outcome->complaint);
  return outcome == nullptr ? std::get<Invocation>(parsed) : Invocation{};
}

Outcome ended(const std::vector<std::string>& arguments) {
  const auto parsed = parse(arguments, {});
  const auto* outcome = std::get_if<Outcome>(&parsed);
  EXPECT_NE(outcome, nullptr);
  return outcome == nullptr ? Outcome{-1, "", ""} : *outcome;
}

TEST(Parse, ReadsACheckWithItsOptions) {
  const Invocation line =
      understood({"check", "a.json", "--units", "us", "--full", "--no-cures", "--json", "--ruleset", "iec"});
  const auto& request = std::get<CheckRequest>(line.request);
  EXPECT_EQ(request.job, "a.json");
  EXPECT_EQ(request.detail, Detail::full);
  EXPECT_FALSE(request.cures);
  EXPECT_EQ(line.common.units, job::DisplayUnits::us);
  EXPECT_EQ(line.common.ruleset, "iec");
  EXPECT_TRUE(line.common.json);
}

TEST(Parse, LeavesUnitsToTheJobWhereNoneAreAskedFor) {
  EXPECT_FALSE(understood({"check", "a.json"}).common.units.has_value());
}

TEST(Parse, ADashIsStandardInput) { EXPECT_EQ(std::get<CheckRequest>(understood({"check", "-"}).request).job, "-"); }

TEST(Parse, KeepsThePartsOfAQuestionAsTyped) {
  const auto request =
      std::get<AskRequest>(understood({"ask", "--lamps", "8", "--length=60m", "--spread", "tee"}).request);
  EXPECT_EQ(request.lamps, "8");
  EXPECT_EQ(request.length, "60m");
  EXPECT_EQ(request.tap, "");
  EXPECT_EQ(request.spread, "tee");
}

TEST(Parse, ReadsAPlanWithItsPins) {
  const auto request = std::get<RouteRequest>(understood({"route",
                                                          "a.json",
                                                          "--steps",
                                                          "400",
                                                          "--seed",
                                                          "9",
                                                          "--keep-cable",
                                                          "C1",
                                                          "--keep-cable",
                                                          "C2",
                                                          "--no-trench",
                                                          "C3",
                                                          "--own-output",
                                                          "F1",
                                                          "--keep-transformer",
                                                          "T1",
                                                          "--no-hub",
                                                          "--splice-leads",
                                                          "--reserve",
                                                          "20",
                                                          "--cable-types",
                                                          "2",
                                                          "--labour",
                                                          "42.50"})
                                                  .request);
  EXPECT_EQ(request.job, "a.json");
  EXPECT_EQ(request.asked.pins, (study::RoutePins{{"C1", "C2"}, {"C3"}, {"F1"}, {"T1"}}));
  EXPECT_EQ(request.asked.most_steps, 400u);
  EXPECT_EQ(request.asked.seed, 9u);
  EXPECT_TRUE(request.asked.no_hub);
  EXPECT_TRUE(request.asked.splice_every_lead);
  EXPECT_EQ(request.asked.reserve_pct, 20);
  EXPECT_EQ(request.asked.most_cable_types, 2u);
  EXPECT_EQ(request.labour, "42.50");
  EXPECT_FALSE(request.limit_s) << "steps are counted, not seconds";
  EXPECT_EQ(std::get<RouteRequest>(understood({"route", "a.json", "--seconds", "0.5"}).request).limit_s, 0.5);
}

TEST(Parse, EveryCommandHasAHelpPageThatNamesItsOptionsAndExamples) {
  for (const std::string& name : command_names()) {
    const Outcome page = ended({name, "--help"});
    EXPECT_EQ(page.code, exit_sound) << name;
    EXPECT_THAT(page.text, HasSubstr("duskwire " + name + ": "));
    const bool makes_one = name == "backup" || name == "restore" || name == "salvage";
    const char* own = name == "serve" ? "--port" : name == "devices" ? "--forget" : makes_one ? "--output" : "--json";
    EXPECT_THAT(page.text, HasSubstr(own));
    EXPECT_THAT(page.text, HasSubstr("Examples\n"));
    EXPECT_THAT(ended({"--help"}).text, HasSubstr(name));
  }
}

TEST(Parse, AMistypedCommandGetsASuggestion) {
  const Outcome met = ended({"chekc", "a.json"});
  EXPECT_EQ(met.code, exit_bad_input);
  EXPECT_EQ(met.text, "");
  EXPECT_THAT(met.complaint, HasSubstr("there is no command \"chekc\". Did you mean check?"));
}

TEST(Parse, AMistypedOptionGetsASuggestion) {
  const Outcome met = ended({"check", "a.json", "--no-cure"});
  EXPECT_EQ(met.code, exit_bad_input);
  EXPECT_THAT(met.complaint, HasSubstr("there is no option --no-cure. Did you mean --no-cures?"));
  EXPECT_THAT(met.complaint, HasSubstr("Try duskwire check --help."));
}

TEST(Parse, BadLinesEndWithTwoAndAReason) {
  EXPECT_EQ(ended({}).code, exit_bad_input);
  EXPECT_THAT(ended({"check"}).complaint, HasSubstr("JOB"));
  EXPECT_THAT(ended({"check", "a.json", "b.json"}).complaint, HasSubstr("\"b.json\" was not expected"));
  EXPECT_THAT(ended({"check", "a.json", "--units", "furlongs"}).complaint,
              HasSubstr("\"furlongs\" is none of metric, us"));
  EXPECT_THAT(ended({"check", "a.json", "--brief", "--full"}).complaint, HasSubstr("--brief"));
  for (const auto& line : std::vector<std::vector<std::string>>{{"check"}, {"ask", "--lamps"}, {"--bogus"}, {""}}) {
    EXPECT_EQ(ended(line).code, exit_bad_input);
  }
}

TEST(Parse, TellsItsVersion) { EXPECT_THAT(ended({"--version"}).text, ::testing::MatchesRegex("duskwire [0-9.]+\n")); }

}  // namespace
}  // namespace duskwire::cli
