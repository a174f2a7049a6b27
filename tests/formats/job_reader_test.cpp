// SPDX-License-Identifier: Apache-2.0
#include "formats/job_reader.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "formats/documents.hpp"

namespace duskwire::formats {
namespace {

// Reads a document that has one error and gives it; fails where there are others.
Problem only_error(const std::string& text) {
  const ReadJob read = read_job(text);
  EXPECT_FALSE(read.job);
  EXPECT_EQ(error_pointers(read.problems).size(), 1u) << told(read.problems);
  const auto found = std::find_if(read.problems.begin(), read.problems.end(),
                                  [](const Problem& problem) { return problem.severity == Severity::error; });
  return found == read.problems.end() ? Problem{} : *found;
}

Problem only_warning(const std::string& text) {
  const ReadJob read = read_job(text);
  EXPECT_TRUE(read.job) << told(read.problems);
  EXPECT_EQ(read.problems.size(), 1u) << told(read.problems);
  return read.problems.empty() ? Problem{} : read.problems[0];
}

constexpr const char* smallest =
    R"({"format":"duskwire-job","version":1,"id":"j","site":{"mains_v":120,"mains_hz":60,"ruleset":"us"}})";

TEST(JobReader, TheSmallestJobHasEveryDefault) {
  const ReadJob read = read_job(smallest);
  ASSERT_TRUE(read.job) << told(read.problems);
  job::Job expected;
  expected.id = "j";
  EXPECT_EQ(*read.job, expected);
  EXPECT_TRUE(read.problems.empty());
}

TEST(JobReader, EveryExampleIsRead) {
  for (const char* name : {"ostrey-garden", "ostrey-garden-sound", "small-garden"}) {
    const ReadJob read = read_job(project_file(std::string("examples/") + name + ".json"));
    EXPECT_TRUE(read.job) << name;
    EXPECT_TRUE(read.problems.empty()) << name << "\n" << told(read.problems);
  }
}

TEST(JobReader, EveryPartOfAFullJobArrives) {
  const ReadJob read = read_job(full_job_text());
  ASSERT_TRUE(read.job) << told(read.problems);
  EXPECT_TRUE(read.problems.empty()) << told(read.problems);
  const job::Job& job = *read.job;
  EXPECT_EQ(job.site.corners.cable_cold_c, -10);
  EXPECT_FALSE(job.site.corners.few_lamps);
  EXPECT_EQ(job.site.units, job::DisplayUnits::metric);
  EXPECT_EQ(job.client.wishes[0].text, "Dark steps, please light them.");
  EXPECT_EQ(job.practice.staple_spacing_m, 2.5);
  EXPECT_EQ(job.catalogue.luminaires[1].lamp, job::LampKind::filament);
  EXPECT_EQ(job.catalogue.transformers[0].taps_v, (std::vector<double>{12, 13, 14, 15}));
  EXPECT_EQ(job.catalogue.connectors[0].fills[0].count_min, 3u);
  EXPECT_EQ(job.catalogue.cables[0].gauge_awg, 12);
  EXPECT_EQ(job.plan.underlay->origin, (geometry::Point2{-3, 40.5}));
  EXPECT_EQ(job.plan.areas[0].kind, job::GroundKind::building);
  EXPECT_EQ(job.plan.view_points[0].position, (geometry::Point3{5, -12, 1.6}));
  EXPECT_EQ(job.luminaires[0].position, (geometry::Point3{3, -3, 0.5}));
  EXPECT_FALSE(job.luminaires[1].position);
  EXPECT_EQ(job.transformers[0].outputs[0].limit_a, 15);
  EXPECT_FALSE(job.transformers[0].outputs[1].limit_a);
  EXPECT_EQ(job.transformers[0].controls, std::vector<std::string>{"clock"});
  EXPECT_EQ(job.cables[0].path[1], (geometry::Point2{1.25, -2.5}));
  EXPECT_EQ(job.cables[0].ground, job::GroundKind::paving);
  EXPECT_TRUE(job.cables[0].crossed);
  EXPECT_FALSE(job.joints[0].buried);
  EXPECT_EQ(job.joints[0].as_built->offset_2_m, 17.7);
  EXPECT_EQ(job.extra, R"({"unknown_part":{"nested":{"deep":[{"x":null}]},"yes":true}})");
  EXPECT_EQ(job.site.corners.extra, R"({"unknown_corner":1})");
  EXPECT_EQ(job.site.soil, job::Soil::clay);
  EXPECT_EQ(job.programme.at(0).on.offset_min, -15);
  EXPECT_EQ(job.programme[0].off.time, "23:30");
  EXPECT_FALSE(job.programme[0].off.offset_min);
  EXPECT_EQ(job.offer->rates.labour_cost_minor_per_h, 3800);
  EXPECT_EQ(job.offer->rates.trenches.at(0).ground, job::GroundKind::lawn);
  EXPECT_EQ(job.offer->margins.tax_on, job::TaxBase::whole_price);
  EXPECT_EQ(job.offer->options.at(1).kind, job::OptionKind::variant);
  EXPECT_EQ(job.offer->options[1].swaps.at(0).with, "halogen-20w");
  EXPECT_EQ(job.offer->extras.at(0).price_minor, -5000);
  EXPECT_EQ(job.visits.at(0).kind, job::VisitKind::commissioning);
  EXPECT_EQ(job.visits[0].readings.at(0).value, 12.7);
}

TEST(JobReader, EveryProblemIsToldNotTheFirst) {
  Json tree = Json::parse(full_job_text());
  tree["site"]["mains_v"] = -1;
  tree["luminaires"][0]["item"] = "no-such";
  tree["cables"][1]["depth_m"] = "deep";
  tree["joints"][0].erase("id");
  const ReadJob read = read_job(tree.dump());
  EXPECT_FALSE(read.job);
  const std::vector<std::string> pointers = error_pointers(read.problems);
  for (const char* expected :
       {"/site/mains_v", "/luminaires/0/item", "/cables/1/depth_m", "/joints/0", "/cables/0/to", "/cables/1/from"}) {
    EXPECT_NE(std::find(pointers.begin(), pointers.end(), expected), pointers.end()) << expected;
  }
}

TEST(JobReader, AProblemSaysWhereWhatAndWhatInstead) {
  const Problem problem = only_error(full_job_with("/cables/1/depth_m", -0.5));
  EXPECT_EQ(problem.pointer, "/cables/1/depth_m");
  EXPECT_EQ(problem.value, "-0.5");
  EXPECT_EQ(problem.expected, "a number from 0 to 10 m");
  EXPECT_EQ(problem.message,
            "Cable \"C2\": \"depth_m\" is -0.5, but takes a number from 0 to 10 m (Cover over the cable).");
}

struct Planted {
  const char* pointer;
  Json value;
  const char* hint;  // part of the message
};

TEST(JobReader, WrongValuesAreRefusedWithAHint) {
  const std::vector<Planted> all{
      {"/title", Json::parse(R"({"a":1})"), "is an object {...}, but takes text"},
      {"/title", 5, "takes text of at most 200 characters"},
      {"/title", std::string(201, 'x'), "takes text of at most 200 characters"},
      {"/title", "a\x01", "takes text"},
      {"/created", "2026-02-30", "a date such as 2026-03-02"},
      {"/id", "", "an id of 1 to 64 characters without spaces"},
      {"/id", "a b", "an id of 1 to 64 characters without spaces"},
      {"/site/mains_v", "120", "Write the number without quotes."},
      {"/site/mains_v", "120 V", "Write the bare number, in the unit of the key."},
      {"/site/mains_v", nullptr, "Leave the key out"},
      {"/site/mains_v", 1e9, "a number from 50 to 500 V"},
      {"/site/latitude_deg", 91, "a number from -90 to 90 deg"},
      {"/site/time_zone", "Chicago, USA", "a time zone such as America/Chicago"},
      {"/site/currency", "euro", "a currency of three capital letters"},
      {"/site/units", "metrical", "Did you mean \"metric\"?"},
      {"/site/units", 1, "one of metric, us"},
      {"/site/corners/few_lamps", "true", "Write it without quotes."},
      {"/site/corners/few_lamps", 1, "true or false"},
      {"/site/corners/cable_cold_c", 36, "must ascend"},
      {"/catalogue/transformers/0/output_count", 1.5, "a whole number from 1 to 16"},
      {"/catalogue/transformers/0/output_count", 0, "a whole number from 1 to 16"},
      {"/catalogue/transformers/0/taps_v", Json::array(), "a list of 1 to 24 numbers"},
      {"/catalogue/transformers/0/taps_v/1", 12, "ascending"},
      {"/catalogue/transformers/0/taps_v/1", "13", "Write the number without quotes."},
      {"/catalogue/luminaires/0/window_min_v", 16, "swap or correct them"},
      {"/catalogue/luminaires/0/power_w", 4, "apparent power is never less than real power"},
      {"/catalogue/luminaires/0/v_cut_off", 10, "goes dark below the voltage"},
      {"/catalogue/luminaires/0/price_minor", 70.5, "a whole number"},
      {"/catalogue/luminaires/0/price_minor", 1e18, "a whole number"},
      {"/catalogue/luminaires/0/kind", "pathlight", "takes one of path, bullet"},
      {"/catalogue/connectors/0/fills/0/count_min", 11, "swap or correct them"},
      {"/catalogue/cables/0/ohm_per_m_20c", 0, "a number above 0, to 10 ohm/m"},
      {"/catalogue/sundries/0/unit", "ft", "one of piece, m"},
      {"/plan/areas/0/outline", Json::parse("[[0,0],[1,1]]"), "3 to 10000 points"},
      {"/plan/areas/0/outline/0", Json::parse("[0]"), "a point [x, y] in m"},
      {"/plan/areas/0/outline/0", Json::parse("[0,0,0]"), "a point [x, y] in m"},
      {"/plan/areas/0/outline/0/1", 100001, "each number from -100000 to 100000"},
      {"/plan/areas/0/outline/0/1", "1", "Write the number without quotes."},
      {"/luminaires/0/position", Json::parse("[1,2]"), "a point [x, y, z] in m"},
      {"/cables/0/path", Json::parse("[[0,0]]"), "none or 2 to 10000 points"},
      {"/cables/0/ground", "grass", "takes one of bed, lawn"},
      {"/joints/0/connector_count", -1, "a whole number from 0 to 100 pieces"},
      {"/joints/0/as_built/recorded", "yesterday", "a date or time such as"},
      {"/programme/0/days/0", "monday", "one of mon, tue"},
      {"/programme/0/off/time", "", "needs \"time\""},
      {"/visits/0/readings/0/unit", "mV", "takes one of V, A, W"},
      {"/views/0/calibration/principal_point_px", Json::parse("[1]"), "a place [x, y] in px"},
      {"/views/0/calibration/wall/corners_px", Json::parse("[[0,0],[1,1],[2,2]]"), "a list of 4 places"},
      {"/views/0/surfaces/0/outline_px/0", Json::parse("[0]"), "a place [x, y] in px"},
      {"/views/0/surfaces/0/normal", Json::parse("[0,0,0]"), "which way it faces"},
      {"/views/0/surfaces/0/normal/1", 2, "each number from -1 to 1"},
      {"/views/0/surfaces/0/kind", "fence", "takes one of wall, ground"},
      {"/views/0/masks/0/id", "W1", "is used twice"},
      {"/offer/terms/deposit_pct", 101, "a number from 0 to 100 %"},
  };
  for (const Planted& each : all) {
    const Problem problem = only_error(full_job_with(each.pointer, each.value));
    EXPECT_TRUE(std::string(each.pointer).starts_with(problem.pointer)) << each.pointer << " " << problem.pointer;
    EXPECT_NE(problem.message.find(each.hint), std::string::npos) << each.pointer << ": " << problem.message;
    EXPECT_FALSE(problem.expected.empty()) << each.pointer;
  }
}

TEST(JobReader, MissingKeysAreToldWithWhatTheyTake) {
  const Problem problem = only_error(full_job_without("/cables/1", "item"));
  EXPECT_EQ(problem.pointer, "/cables/1");
  EXPECT_EQ(problem.expected, "the id of a cable item");
  EXPECT_EQ(problem.message,
            "Cable \"C2\": \"item\" is missing; it takes the id of a cable item (Cable item of the job's catalogue).");
  EXPECT_EQ(only_error(full_job_without("/site", "mains_v")).pointer, "/site");
  EXPECT_EQ(only_error(full_job_without("/visits/0/readings/0", "quantity")).pointer, "/visits/0/readings/0");
}

TEST(JobReader, ALedNeedsTheVoltageItRegulatesFrom) {
  const ReadJob read = read_job(full_job_without("/catalogue/luminaires/0", "v_regulation_min"));
  const std::string all = told(read.problems);
  EXPECT_NE(all.find("take the lower end of its window"), std::string::npos) << all;
}

TEST(JobReader, ACableNeedsALengthOrAPath) {
  const Problem problem = only_error(full_job_without("/cables/1", "length_m"));
  EXPECT_EQ(problem.pointer, "/cables/1");
  EXPECT_NE(problem.message.find("neither \"length_m\" nor \"path\""), std::string::npos);
  EXPECT_TRUE(read_job(full_job_without("/cables/0", "length_m")).job);
}

TEST(JobReader, ACableLeadsElsewhere) {
  EXPECT_NE(only_error(full_job_with("/cables/1/to", "S1")).message.find("starts and ends at \"S1\""),
            std::string::npos);
}

TEST(JobReader, DanglingReferencesAreToldWithALookAlike) {
  const std::vector<Planted> all{
      {"/luminaires/0/item", "path-3w", "did you mean \"path-2w\"?"},
      {"/luminaires/0/item", "quite-another", "copy the item into it"},
      {"/luminaires/0/joint", "S9", "did you mean \"S1\"?"},
      {"/luminaires/0/joint", "F2", "\"F2\" is the id of the luminaire at /luminaires/1/id, where a joint is meant."},
      {"/transformers/0/item", "12awg-2", "There is no transformer item"},
      {"/transformers/0/receptacle", "socket", "add it, or name another"},
      {"/transformers/0/controls/0", "timer-2", "There is no control item"},
      {"/cables/0/item", "14awg-2", "did you mean \"12awg-2\"?"},
      {"/cables/0/from", "T1", "There is no output, joint or luminaire \"T1\""},
      {"/cables/0/sleeve", "C1", "There is no sleeve"},
      {"/joints/0/connector", "hub", "There is no connector item"},
      {"/joints/0/as_built/fixed_point_1", "P3", "There is no fixed point \"P3\""},
  };
  for (const Planted& each : all) {
    const Problem problem = only_error(full_job_with(each.pointer, each.value));
    EXPECT_EQ(problem.pointer, each.pointer);
    EXPECT_NE(problem.message.find(each.hint), std::string::npos) << each.pointer << ": " << problem.message;
  }
}

TEST(JobReader, IdsAreUsedOnce) {
  const std::vector<Planted> all{
      {"/luminaires/1/id", "F1", "taken already by the luminaire at /luminaires/0/id"},
      {"/luminaires/1/id", "T1-B", "taken already by the"},
      {"/catalogue/luminaires/1/id", "path-2w", "taken already by the luminaire item"},
      {"/plan/fixed_points/1/id", "P1", "taken already by the fixed point"},
  };
  for (const Planted& each : all) {
    const ReadJob read = read_job(full_job_with(each.pointer, each.value));
    EXPECT_FALSE(read.job) << each.pointer;
    EXPECT_NE(told(read.problems).find(each.hint), std::string::npos) << told(read.problems);
  }
}

TEST(JobReader, ATransformerMayBeCalledAsAJoint) {
  EXPECT_TRUE(read_job(full_job_with("/transformers/0/id", "S1")).job);
}

TEST(JobReader, OtherVersionsAreRefusedWithASentence) {
  const Problem old = only_error(full_job_with("/version", 0));
  EXPECT_EQ(old.pointer, "/version");
  EXPECT_EQ(old.value, "0");
  EXPECT_NE(old.message.find("never published: the first version is 1"), std::string::npos) << old.message;
  const Problem later = only_error(full_job_with("/version", 2));
  EXPECT_NE(later.message.find("made by a newer program; this one reads version 1. Update"), std::string::npos);
  EXPECT_NE(only_error(full_job_with("/version", "1")).message.find("without quotes"), std::string::npos);
  EXPECT_FALSE(read_job_leniently(full_job_with("/version", 2)).job);
  EXPECT_TRUE(read_job(full_job_with("/version", 1.0)).job);
}

TEST(JobReader, OtherDocumentsAreRefusedByName) {
  EXPECT_NE(only_error(project_file("data/catalogue/stock.json")).message.find("This is a catalogue, where a job"),
            std::string::npos);
  EXPECT_NE(only_error(full_job_with("/format", "garden")).message.find("is no job of this program"),
            std::string::npos);
  EXPECT_NE(only_error(full_job_without("", "format")).message.find("begin it with \"format\": \"duskwire-job\""),
            std::string::npos);
  EXPECT_NE(only_error(full_job_without("", "version")).message.find("add \"version\": 1"), std::string::npos);
  for (const char* text : {"[]", "5", "\"duskwire-job\"", "null", "true"}) only_error(text);
}

TEST(JobReader, ABrokenTreeStillTellsWhatElseIsWrong) {
  Json tree = Json::parse(full_job_text());
  tree["plan"] = 5;
  tree["luminaires"][1] = "F2";
  tree["site"]["mains_hz"] = 5;
  const ReadJob read = read_job_leniently(tree.dump());
  EXPECT_FALSE(read.job);
  const std::vector<std::string> pointers = error_pointers(read.problems);
  for (const char* expected : {"/plan", "/luminaires/1", "/site/mains_hz"}) {
    EXPECT_NE(std::find(pointers.begin(), pointers.end(), expected), pointers.end()) << expected;
  }
}

TEST(JobReader, AWrongListOrObjectLeavesNoJobEvenLeniently) {
  for (const char* pointer : {"/site", "/plan", "/catalogue", "/luminaires", "/cables", "/joints/0", "/visits",
                              "/plan/areas/0/outline", "/catalogue/connectors/0/fills", "/site/corners"}) {
    const std::string text = full_job_with(pointer, 7);
    EXPECT_FALSE(read_job_leniently(text).job) << pointer;
    EXPECT_FALSE(read_job(text).job) << pointer;
  }
}

TEST(JobReader, AJobWithErrorsCanBeShown) {
  Json tree = Json::parse(full_job_text());
  tree["cables"][1]["to"] = "nowhere";
  tree["cables"][1]["length_m"] = -6;
  tree["joints"][0]["kind"] = "knot";
  EXPECT_FALSE(read_job(tree.dump()).job);
  const ReadJob read = read_job_leniently(tree.dump());
  ASSERT_TRUE(read.job);
  EXPECT_EQ(error_pointers(read.problems).size(), 3u) << told(read.problems);
  EXPECT_EQ(read.job->cables[1].to, "nowhere");
  EXPECT_EQ(read.job->cables[1].length_m, -6);
  EXPECT_EQ(read.job->joints[0].kind, job::JointKind::in_line);
}

TEST(JobReader, AKeyThatComesTwiceIsRefused) {
  std::string text = full_job_text();
  const std::string mark = "\"id\": \"full-job\",";
  text.replace(text.find(mark), mark.size(), mark + "\n  \"id\": \"another\",");
  EXPECT_EQ(only_error(text).pointer, "/id");
}

TEST(JobReader, WhatIsNotJsonIsOneProblem) {
  for (const std::string text : {"", "{", "{\"format\":\"duskwire-job\",\"version\":1,\"id\":\"\xFF\"}"})
    only_error(text);
  EXPECT_EQ(only_error(full_job_text().substr(0, 3000)).expected, "valid JSON (RFC 8259) in UTF-8");
}

TEST(JobReader, ListsAreBounded) {
  Json tree = Json::parse(smallest);
  for (int i = 0; i < 1001; ++i) tree["transformers"].push_back(Json::object());
  const Problem problem = only_error(tree.dump());
  EXPECT_EQ(problem.pointer, "/transformers");
  EXPECT_EQ(problem.expected, "a list of at most 1000 entries");
}

TEST(JobReader, ThousandsOfProblemsAreCutShort) {
  Json tree = Json::parse(smallest);
  for (int i = 0; i < 3000; ++i) tree["joints"].push_back({{"id", i}});
  const ReadJob read = read_job(tree.dump());
  EXPECT_EQ(read.problems.size(), 1001u);
  EXPECT_EQ(read.problems.back().message, "2000 more problems are not listed: mend these first.");
}

TEST(JobReader, ManyDanglingReferencesAreToldQuickly) {
  Json tree = Json::parse(smallest);
  for (int i = 0; i < 20'000; ++i) {
    tree["joints"].push_back({{"id", "joint-" + std::to_string(i)}});
    tree["luminaires"].push_back({{"id", "lamp-" + std::to_string(i)}, {"item", "none"}, {"joint", "joint-x"}});
  }
  EXPECT_EQ(read_job(tree.dump()).problems.size(), 1001u);
}

TEST(JobReader, NearlyKnownKeysAreWarnedOf) {
  const Problem problem = only_warning(full_job_with("/cables/1/dept_m", 0.3));
  EXPECT_EQ(problem.severity, Severity::warning);
  EXPECT_EQ(problem.pointer, "/cables/1/dept_m");
  EXPECT_NE(problem.message.find("Did you mean \"depth_m\"?"), std::string::npos);
}

TEST(JobReader, WhatDoesNotAgreeIsWarnedOf) {
  EXPECT_EQ(only_warning(full_job_with("/transformers/0/outputs/0/tap_v", 13.5)).pointer,
            "/transformers/0/outputs/0/tap_v");
  EXPECT_EQ(only_warning(full_job_with("/catalogue/transformers/0/output_count", 1)).pointer,
            "/transformers/0/outputs");
  EXPECT_EQ(only_warning(full_job_with("/catalogue/currency", "USD")).pointer, "/catalogue/currency");
  EXPECT_EQ(only_warning(full_job_without("/site", "longitude_deg")).pointer, "/site");
  EXPECT_EQ(only_warning(full_job_with("/plan/trees/0/crown_base_m", 20)).pointer, "/plan/trees/0/crown_base_m");
}

TEST(JobReader, NegativeZeroIsZero) {
  const ReadJob read = read_job(full_job_with("/plan/north_deg", -0.0));
  ASSERT_TRUE(read.job);
  EXPECT_FALSE(std::signbit(read.job->plan.north_deg));
}

}  // namespace
}  // namespace duskwire::formats
