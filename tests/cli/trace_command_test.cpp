// SPDX-License-Identifier: Apache-2.0
// A garden without a plan, from the command: the example's walk was computed from a wiring that its job does not hold.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <map>
#include <nlohmann/json.hpp>
#include <string>

#include "program.hpp"

namespace duskwire::cli {
namespace {

using ::testing::HasSubstr;
using Json = nlohmann::json;

const std::string line = "duskwire trace examples/inherited/garden.json --walk ";

const std::map<std::string, std::string>& truth() {
  static const std::map<std::string, std::string> runs = {
      {"A1", "R1"}, {"A2", "R1"}, {"A3", "R1"}, {"A4", "R2"}, {"A5", "R1"}, {"A6", "R1"}, {"A7", "R1"},
      {"A8", "R1"}, {"B1", "R2"}, {"B2", "R1"}, {"B3", "R2"}, {"B4", "R2"}, {"B5", "R2"}, {"B6", "R2"}};
  return runs;
}

int right(const Json& answer) {
  int count = 0;
  for (const Json& lamp : answer.at("lamps")) count += truth().at(lamp.at("id")) == lamp.at("run") ? 1 : 0;
  return count;
}

TEST(TraceCommand, TheExampleIsFoundAgainAndALiftedRunSettlesIt) {
  const Workplace place;
  const Ended run = place.run(line + "examples/inherited/walk.json --json");
  ASSERT_EQ(run.code, 0) << run.complaint;
  EXPECT_GE(right(Json::parse(run.text)), 12);
  Json walk = Json::parse(project_file("examples/inherited/walk.json"));
  for (const auto& [lamp, on] : truth()) walk["runs"][1][on == "R2" ? "went_dark" : "stayed_lit"].push_back(lamp);
  place.write("lifted.json", walk.dump());
  const Ended lifted = place.run(line + "lifted.json --json");
  ASSERT_EQ(lifted.code, 0) << lifted.complaint;
  const Json answer = Json::parse(lifted.text);
  EXPECT_EQ(right(answer), 14);
  for (const Json& lamp : answer.at("lamps")) EXPECT_GT(lamp.at("chance"), 0.9) << lamp;
}

TEST(TraceCommand, TheRoughNetworkIsAnOrdinaryJob) {
  const Workplace place;
  const Ended run = place.run(line + "examples/inherited/walk.json --output traced.json");
  ASSERT_EQ(run.code, 0) << run.complaint;
  EXPECT_THAT(run.text, HasSubstr("Which lamp hangs where"));
  EXPECT_THAT(run.text, HasSubstr("What would tell most"));
  const Json report = Json::parse(place.run("duskwire check traced.json --json").text);
  ASSERT_EQ(report.at("lamps").size(), 14U);
  // As read at the last lamp of R2.
  EXPECT_NEAR(report.at("lamps").back().at("nominal_v"), 11.77, 0.25);
}

TEST(TraceCommand, AWalkThatCannotBeRightIsRefusedWithAllThatIsWrong) {
  const Workplace place;
  EXPECT_EQ(place.run("duskwire trace examples/inherited/garden.json").code, 2);
  Json walk = Json::parse(project_file("examples/inherited/walk.json"));
  walk["runs"][0]["output"] = "T9-A";
  walk["runs"][1]["clamps"] = {{{"at", {90, 90}}, {"current_a", 1}}};
  place.write("walk.json", walk.dump());
  const Ended run = place.run(line + "walk.json");
  EXPECT_EQ(run.code, 2);
  EXPECT_THAT(run.complaint, HasSubstr("T9-A"));
  EXPECT_THAT(run.complaint, HasSubstr("Clamp reading 1 of run R2"));
  walk["runs"][0]["current_a"] = -3;
  place.write("walk.json", walk.dump());
  EXPECT_THAT(place.run(line + "walk.json").complaint, HasSubstr("/runs/0/current_a"));
}

}  // namespace
}  // namespace duskwire::cli
