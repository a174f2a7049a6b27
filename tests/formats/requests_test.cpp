// SPDX-License-Identifier: Apache-2.0
#include "formats/requests.hpp"

#include <gtest/gtest.h>

#include <string>
#include <tuple>
#include <vector>

namespace duskwire::formats {
namespace {

auto all_of(const study::RouteRequest& request) {
  return std::tie(request.pins, request.no_hub, request.splice_every_lead, request.reserve_pct,
                  request.most_cable_types, request.seed, request.most_steps, request.rates);
}

TEST(Requests, AQuestionKeepsItsDefaultsWhereNothingIsSaid) {
  const auto read = read_ask_request(R"({"lamps": 8, "lamp_w": 4, "length_m": 60})");
  ASSERT_TRUE(read.request);
  EXPECT_EQ(read.request->question.lamps, 8u);
  EXPECT_EQ(read.request->question.lamp_w, 4);
  EXPECT_EQ(read.request->question.length_m, 60);
  EXPECT_FALSE(read.request->question.tap_v);
  EXPECT_EQ(read.request->question.window_max_v, study::Question{}.window_max_v);
  EXPECT_EQ(read.request->units, job::DisplayUnits::metric);
}

TEST(Requests, AQuestionTakesACableSpreadAndUnits) {
  const auto read = read_ask_request(
      R"({"cable": {"id": "c", "area_mm2": 2.5, "ohm_per_m_20c": 0.0069}, "spread": "tee", "units": "us"})");
  ASSERT_TRUE(read.request);
  ASSERT_TRUE(read.request->question.cable);
  EXPECT_EQ(read.request->question.cable->area_mm2, 2.5);
  EXPECT_EQ(read.request->question.spread, study::Spread::tee);
  EXPECT_EQ(read.request->units, job::DisplayUnits::us);
}

TEST(Requests, EveryBadValueOfAQuestionIsToldWithItsPlace) {
  const auto read = read_ask_request(R"({"lamps": 0, "tap_v": -12, "spread": "ring", "units": "furlongs"})");
  EXPECT_FALSE(read.request);
  std::vector<std::string> places;
  for (const Problem& problem : read.problems) places.push_back(problem.pointer);
  EXPECT_EQ(places, (std::vector<std::string>{"/lamps", "/tap_v", "/spread", "/units"}));
}

TEST(Requests, ATextThatIsNotAnObjectIsRefused) {
  for (const char* text : {"", "[]", "3", "\"lamps\"", "{"}) {
    EXPECT_FALSE(read_ask_request(text).request) << text;
    EXPECT_FALSE(read_check_request(text).request) << text;
    EXPECT_FALSE(read_start_request(text).request) << text;
    EXPECT_FALSE(read_route_request(text, {}).request) << text;
  }
}

TEST(Requests, ACheckSearchesCuresUnlessToldNotTo) {
  ASSERT_TRUE(read_check_request("{}").request);
  EXPECT_TRUE(read_check_request("{}").request->cures);
  EXPECT_FALSE(read_check_request(R"({"cures": false})").request->cures);
  EXPECT_EQ(read_check_request(R"({"ruleset": "iec"})").request->ruleset, "iec");
}

TEST(Requests, AStartTakesTableAndSite) {
  const auto read = read_start_request(
      R"({"title": "Front", "lamps_csv": "name,watts\nA,4\n", "site": {"mains_v": 230, "mains_hz": 50, "ruleset": "iec"}})");
  ASSERT_TRUE(read.request);
  EXPECT_EQ(read.request->title, "Front");
  EXPECT_EQ(read.request->lamps_csv, "name,watts\nA,4\n");
  EXPECT_EQ(read.request->site.ruleset, "iec");
  EXPECT_FALSE(read_start_request(R"({"title": "Front"})").request) << "the table is needed";
}

TEST(Requests, APlanKeepsItsDefaultsWhereNothingIsSaid) {
  const auto read = read_route_request("{}", {});
  ASSERT_TRUE(read.request);
  EXPECT_TRUE(all_of(*read.request) == all_of(study::RouteRequest{}));
}

TEST(Requests, APlanTakesPinsAndLimits) {
  const auto read = read_route_request(
      R"({"pins": {"kept_cables": ["C1", "C2"], "forbidden_trenches": ["C3"], "own_outputs": ["F1"],
          "kept_transformers": ["T1"]}, "no_hub": true, "splice_every_lead": true, "reserve_pct": 20,
          "most_cable_types": 2, "seed": 9007199254740991, "most_steps": 4000,
          "rates": {"labour_minor_per_h": 5200}})",
      {});
  ASSERT_TRUE(read.request);
  study::RouteRequest expected;
  expected.pins = {{"C1", "C2"}, {"C3"}, {"F1"}, {"T1"}};
  expected.no_hub = true;
  expected.splice_every_lead = true;
  expected.reserve_pct = 20;
  expected.most_cable_types = 2;
  expected.seed = 9'007'199'254'740'991U;
  expected.most_steps = 4000;
  expected.rates.labour_minor_per_h = 5200;
  EXPECT_TRUE(all_of(*read.request) == all_of(expected));
}

TEST(Requests, APlanReckonsWithTheHourOfTheOfferUnlessToldAnother) {
  job::Job job;
  job.offer.emplace().rates.labour_cost_minor_per_h = 3800;
  EXPECT_EQ(read_route_request("{}", job).request->rates.labour_minor_per_h, 3800);
  EXPECT_EQ(read_route_request(R"({"rates": {}})", job).request->rates.labour_minor_per_h, 3800);
  EXPECT_EQ(read_route_request(R"({"rates": {"labour_minor_per_h": 5200}})", job).request->rates.labour_minor_per_h,
            5200);
}

TEST(Requests, EveryBadValueOfAPlanIsToldWithItsPlace) {
  const auto read = read_route_request(
      R"({"pins": {"kept_cables": "C1", "own_outputs": ["F1", 7]}, "no_hub": 1, "reserve_pct": -5, "seed": 1.5,
          "most_steps": -1, "most_cable_types": 99, "rates": {"labour_minor_per_h": "much"}})",
      {});
  EXPECT_FALSE(read.request);
  std::vector<std::string> places;
  for (const Problem& problem : read.problems) places.push_back(problem.pointer);
  EXPECT_EQ(places,
            (std::vector<std::string>{"/pins/kept_cables", "/pins/own_outputs/1", "/no_hub", "/reserve_pct",
                                      "/most_cable_types", "/seed", "/most_steps", "/rates/labour_minor_per_h"}));
}

}  // namespace
}  // namespace duskwire::formats
