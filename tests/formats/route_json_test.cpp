// SPDX-License-Identifier: Apache-2.0
#include "formats/route_json.hpp"

#include <gtest/gtest.h>

#include <limits>

#include "formats/documents.hpp"
#include "formats/job_reader.hpp"

namespace duskwire::formats {
namespace {

study::RouteAnswer answer() {
  study::RouteAnswer answer;
  answer.job = read_job(project_file("examples/small-garden.json")).job;
  answer.today.cost.cost_minor = 123456;
  answer.today.cost.trench_m = 41.5;
  answer.today.errors = 3;
  answer.planned.lowest_v = 10.75;
  answer.planned.lowest_lamp = "F8";
  answer.planned.sound = true;
  answer.sleeves_to_lay = {"new-1"};
  answer.bound_minor = 100000.5;
  study::RouteRun run;
  run.cable = "C1";
  run.topology = study::Topology::tee;
  run.lamps = {"F1", "F2"};
  run.cable_items = {"12awg-2"};
  run.sentence = "A sentence.";
  answer.runs = {run};
  answer.obstacles = {{"F9", "It is too far.", "Another place for a transformer."}};
  answer.steps = 9'000'000'000;
  return answer;
}

TEST(RouteJson, KeysAreTheNamesOfTheFields) {
  const Json json = route_answer_json(answer());
  EXPECT_EQ(json["today"]["cost"]["cost_minor"], 123456);
  EXPECT_EQ(json["today"]["cost"]["trench_m"], 41.5);
  EXPECT_EQ(json["today"]["errors"], 3);
  EXPECT_EQ(json["today"]["sound"], false);
  EXPECT_EQ(json["planned"]["lowest_v"], 10.75);
  EXPECT_EQ(json["planned"]["lowest_lamp"], "F8");
  EXPECT_EQ(json["planned"]["sound"], true);
  EXPECT_EQ(json["sleeves_to_lay"], Json::array({"new-1"}));
  EXPECT_EQ(json["bound_minor"], 100000.5);
  EXPECT_EQ(json["runs"][0]["topology"], "tee");
  EXPECT_EQ(json["runs"][0]["lamps"], Json::array({"F1", "F2"}));
  EXPECT_EQ(json["runs"][0]["cable_items"], Json::array({"12awg-2"}));
  EXPECT_EQ(json["obstacles"][0]["subject"], "F9");
  EXPECT_EQ(json["obstacles"][0]["cure"], "Another place for a transformer.");
  EXPECT_EQ(json["steps"], 9'000'000'000);
}

TEST(RouteJson, ThePlannedJobIsADocumentThatReadsBackEqual) {
  const study::RouteAnswer planned = answer();
  const Json json = route_answer_json(planned);
  EXPECT_EQ(json["job"]["format"], "duskwire-job");
  const ReadJob read = read_job(compact_text(json["job"]));
  ASSERT_TRUE(read.job) << told(read.problems);
  EXPECT_EQ(*read.job, *planned.job);
}

TEST(RouteJson, WithoutAPlanTheJobIsNull) {
  study::RouteAnswer none = answer();
  none.job.reset();
  EXPECT_TRUE(route_answer_json(none).contains("job"));
  EXPECT_TRUE(route_answer_json(none)["job"].is_null());
}

TEST(RouteJson, ProgressSaysWhetherMoreIsToBeExpected) {
  study::RouteProgress progress;
  progress.steps = 70;
  progress.cost_minor = 1234.5;
  progress.first_minor = 2000;
  progress.trench_m = 31;
  progress.lamps_placed = 7;
  progress.lamps = 8;
  const Json json = route_progress_json(progress, true);
  EXPECT_EQ(compact_text(json),
            R"({"steps":70,"cost_minor":1234.5,"first_minor":2000,"trench_m":31,"cable_m":0,"joints":0,)"
            R"("lamps_placed":7,"lamps":8,"more":true})");
  EXPECT_EQ(route_progress_json(progress, false)["more"], false);
}

TEST(RouteJson, WhatIsNotFiniteIsNull) {
  study::RouteAnswer odd = answer();
  odd.planned.load_margin = std::numeric_limits<double>::infinity();
  EXPECT_TRUE(Json::parse(compact_text(route_answer_json(odd)))["planned"]["load_margin"].is_null());
}

}  // namespace
}  // namespace duskwire::formats
