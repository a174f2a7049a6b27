// SPDX-License-Identifier: Apache-2.0
// The planner as a command: with a number of steps, so that its answer does not hang on the speed of the computer.
#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <chrono>
#include <nlohmann/json.hpp>
#include <sstream>

#include "cli/text_width.hpp"
#include "program.hpp"

namespace duskwire::cli {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::MatchesRegex;
using ::testing::Not;
using ::testing::StartsWith;
using Json = nlohmann::json;

// As many steps as it takes to be cheaper than today's wiring.
const std::string demo = "duskwire route examples/ostrey-garden.json --steps 60 --seed 4";

std::string last_line(const std::string& text) {
  const std::size_t end = text.find_last_not_of('\n');
  return text.substr(text.rfind('\n', end) + 1, end - text.rfind('\n', end));
}

class RouteCommand : public ::testing::Test {
 protected:
  [[nodiscard]] Ended planned(const std::string& options = "") const {
    Ended run = place_.run(demo + " " + options);
    EXPECT_EQ(run.complaint, "") << options;
    return run;
  }
  [[nodiscard]] Json answer(const std::string& options = "") const {
    const Ended run = planned(options + " --json");
    EXPECT_TRUE(Json::accept(run.text)) << run.text;
    return Json::parse(run.text);
  }
  void expect_refused(const std::string& options, const std::string& reason) const {
    const Ended run = place_.run(demo + " " + options);
    EXPECT_EQ(run.code, 2) << options;
    EXPECT_EQ(run.text, "") << options;
    EXPECT_THAT(run.complaint, HasSubstr(reason)) << options;
  }

  Workplace place_;
};

TEST_F(RouteCommand, PlansTheDemoSoundAndCheaperThanItIs) {
  const Ended run = planned();
  EXPECT_EQ(run.code, 0);
  EXPECT_THAT(run.text, StartsWith("Planned: a sound wiring of 40 lamps"));
  EXPECT_THAT(run.text, AllOf(HasSubstr("less than today's wiring"), HasSubstr("3 errors"), HasSubstr("Runs\n"),
                              HasSubstr("Nothing was written")));
  EXPECT_THAT(last_line(run.text),
              MatchesRegex("[0-9]+\\.[0-9]+ USD, [0-9]+ ft dug, [0-9]+ ft of cable, [0-9]+ joints, "
                           "[0-9]+\\.[0-9]+ V at worst"));
  const Json json = answer();
  EXPECT_TRUE(json["planned"]["sound"]);
  EXPECT_LT(json["planned"]["cost"]["cost_minor"], json["today"]["cost"]["cost_minor"]);
  EXPECT_LE(json["bound_minor"], json["planned"]["cost"]["cost_minor"]);
  EXPECT_EQ(json["today"]["errors"], 3);
}

TEST_F(RouteCommand, ThePlannedJobIsWrittenAndIsWhatCheckCallsSound) {
  const Ended run = planned("--output planned.json");
  EXPECT_EQ(run.code, 0);
  EXPECT_THAT(run.text, AllOf(StartsWith("Planned: "), Not(HasSubstr("Nothing was written"))));
  EXPECT_EQ(place_.files(), std::vector<std::string>{"planned.json"});
  EXPECT_EQ(place_.run("duskwire validate planned.json").code, 0);
  const Ended checked = place_.run("duskwire check planned.json --json");
  EXPECT_EQ(checked.code, 0) << checked.text;
  const Json report = Json::parse(checked.text);
  EXPECT_EQ(report["lamps"].size(), 40u);
  const Json json = answer();
  EXPECT_EQ(Json::parse(place_.read("planned.json")), json["job"]);
  double lowest_v = 1e9;
  for (const Json& lamp : report["lamps"]) lowest_v = std::min(lowest_v, lamp["worst_low_v"].get<double>());
  EXPECT_NEAR(json["planned"]["lowest_v"], lowest_v, 1e-9);
}

TEST_F(RouteCommand, StepsAndSeedGiveTheSameAnswerEachTime) {
  EXPECT_EQ(planned("--json").text, planned("--json").text);
  EXPECT_EQ(planned().text, planned().text);
}

TEST_F(RouteCommand, UnitsChangeTheTextAndNotTheJob) {
  const Ended metric = planned("--units metric --output metric.json");
  const Ended us = planned("--units us --output us.json");
  EXPECT_THAT(last_line(metric.text), HasSubstr(" m dug"));
  EXPECT_THAT(last_line(us.text), HasSubstr(" ft dug"));
  EXPECT_EQ(place_.read("metric.json"), place_.read("us.json"));
}

TEST_F(RouteCommand, TextFitsEightyAndOneHundredAndFortyColumns) {
  for (const char* job : {"ostrey-garden.json --steps 20", "small-garden.json"}) {
    for (const int columns : {80, 140}) {
      std::istringstream lines(
          place_.run("COLUMNS=" + std::to_string(columns) + " duskwire route examples/" + job).text);
      for (std::string text; std::getline(lines, text);) EXPECT_LE(display_width(text), columns) << text;
    }
  }
}

TEST_F(RouteCommand, WhatIsPinnedStays) {
  const Json before = Json::parse(project_file("examples/ostrey-garden.json"));
  const auto by_id = [](const Json& list, const std::string& id) {
    for (const Json& one : list) {
      if (one["id"] == id) return one;
    }
    return Json();
  };
  const Json job = answer("--keep-transformer T1 --keep-transformer T2 --keep-cable A-C1")["job"];
  ASSERT_TRUE(job.is_object());
  for (const char* id : {"T1", "T2"}) {
    EXPECT_EQ(by_id(job["transformers"], id)["item"], by_id(before["transformers"], id)["item"]) << id;
    EXPECT_EQ(by_id(job["transformers"], id)["position"], by_id(before["transformers"], id)["position"]) << id;
  }
  for (const char* key : {"item", "from", "to", "path"}) {
    EXPECT_EQ(by_id(job["cables"], "A-C1")[key], by_id(before["cables"], "A-C1")[key]) << key;
  }
}

TEST_F(RouteCommand, WhatIsForbiddenIsHeeded) {
  const Json json = answer("--no-hub --cable-types 2");
  ASSERT_TRUE(json["job"].is_object()) << json["obstacles"];
  EXPECT_LE(json["planned"]["cost"]["cable_types"], 2);
  for (const Json& run : json["runs"]) EXPECT_NE(run["topology"], "hub");
  std::map<std::string, int> wires;
  for (const Json& cable : json["job"]["cables"]) {
    ++wires[cable["from"]];
    ++wires[cable["to"]];
  }
  for (const Json& lamp : json["job"]["luminaires"]) {
    if (lamp.contains("joint")) ++wires[lamp["joint"]];
  }
  for (const Json& joint : json["job"]["joints"]) EXPECT_LE(wires[joint["id"]], 3) << joint["id"];
}

TEST_F(RouteCommand, TheHourIsThatOfTheLineElseOfTheOffer) {
  Json job = Json::parse(project_file("examples/ostrey-garden.json"));
  job["offer"]["rates"]["labour_cost_minor_per_h"] = 6000;
  place_.write("offer.json", job.dump());
  const auto today_minor = [&](const std::string& line) {
    return Json::parse(place_.run("duskwire route " + line + " --steps 1 --json").text)["today"]["cost"]["cost_minor"]
        .get<double>();
  };
  const Json cost = answer()["today"]["cost"];
  const double hours = cost["labour_min"].get<double>() / 60;
  const double material_minor = cost["material_minor"];
  EXPECT_NEAR(today_minor("offer.json"), material_minor + hours * 6000, 1);
  EXPECT_NEAR(today_minor("offer.json --labour 52.50"), material_minor + hours * 5250, 1);
  EXPECT_NEAR(today_minor("examples/ostrey-garden.json"), material_minor + hours * 4000, 1);
}

TEST_F(RouteCommand, WhatCannotBePlannedEndsWithOneAndWritesNothing) {
  const Ended run = place_.run("duskwire route examples/small-garden.json --output planned.json");
  EXPECT_EQ(run.code, 1);
  EXPECT_THAT(run.text, AllOf(StartsWith("Not planned: "), HasSubstr("has no place on the plan"), HasSubstr("cure  ")));
  EXPECT_THAT(last_line(run.text), StartsWith("No sound wiring found: "));
  EXPECT_THAT(place_.files(), IsEmpty());
  const Json json = Json::parse(place_.run("duskwire route examples/small-garden.json --json").text);
  EXPECT_TRUE(json["job"].is_null());
  EXPECT_FALSE(json["obstacles"].empty());
}

TEST_F(RouteCommand, AFileThatIsThereIsLeftAloneAndNothingIsSearched) {
  place_.write("planned.json", "mine");
  const auto begun = std::chrono::steady_clock::now();
  const Ended run = place_.run("duskwire route examples/ostrey-garden.json --seconds 60 --output planned.json");
  EXPECT_LT(std::chrono::steady_clock::now() - begun, std::chrono::seconds(30));
  EXPECT_EQ(run.code, 2);
  EXPECT_EQ(run.text, "");
  EXPECT_THAT(run.complaint, AllOf(HasSubstr("planned.json"), HasSubstr("--force")));
  EXPECT_EQ(place_.read("planned.json"), "mine");
  EXPECT_EQ(planned("--output planned.json --force").code, 0);
  EXPECT_THAT(place_.read("planned.json"), HasSubstr("duskwire-job"));
  expect_refused("--output no/such/folder.json", "Cannot write");
}

// Told to end before there is any wiring, it has none to keep and says so by 130: a busy machine gets more time.
TEST_F(RouteCommand, CtrlCKeepsTheBestSoFar) {
  const auto begun = std::chrono::steady_clock::now();
  Ended run;
  for (const char* seconds : {"1", "5", "20"}) {
    run = place_.run(fmt::format(
        "timeout --preserve-status --signal=INT {} duskwire route examples/ostrey-garden.json --seconds 300 --output "
        "planned.json",
        seconds));
    if (run.code != 130) break;
  }
  EXPECT_LT(std::chrono::steady_clock::now() - begun, std::chrono::seconds(90));
  EXPECT_EQ(run.code, 0) << run.complaint;
  EXPECT_THAT(last_line(run.text), HasSubstr(" V at worst"));
  EXPECT_EQ(place_.run("duskwire check planned.json").code, 0);
}

TEST_F(RouteCommand, ATerminalIsShownHowFarItIs) {
  const std::string search = "duskwire route examples/ostrey-garden.json --seconds 0.5";
  const std::string seen = place_.run("TERM=xterm script -qec '" + search + "' /dev/null").text;
  EXPECT_THAT(seen, AllOf(HasSubstr("\r\x1b[K"), HasSubstr(" of 40 lamps  "), HasSubstr(" V at worst")));
  EXPECT_EQ(place_.run(search).complaint, "") << "a file is not";
}

TEST_F(RouteCommand, BadValuesEndWithTwoAndAReason) {
  expect_refused("--keep-cable A-C99", "--keep-cable: the job has no cable \"A-C99\". Did you mean A-C");
  expect_refused("--no-trench A1", "--no-trench: the job has no cable \"A1\".");
  expect_refused("--own-output T1", "--own-output: the job has no luminaire \"T1\".");
  expect_refused("--keep-transformer F1 --keep-cable F1", "--keep-transformer: the job has no transformer \"F1\".");
  expect_refused("--keep-transformer F1 --keep-cable F1", "--keep-cable: the job has no cable \"F1\".");
  expect_refused("--labour much", "--labour: \"much\" was met where an hour's cost in USD");
  expect_refused("--labour -3", "--labour");
  expect_refused("--seconds -1", "\"-1\" is no number from 0 to 86400");
  expect_refused("--seconds nan", "--seconds");
  expect_refused("--reserve 401", "\"401\" is no number from 0 to 400");
  expect_refused("--cable-types 2.5", "--cable-types");
  expect_refused("--seed -1", "--seed");
  expect_refused("--ruleset nowhere", "nowhere");
}

}  // namespace
}  // namespace duskwire::cli
