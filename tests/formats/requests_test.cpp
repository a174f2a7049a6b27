// SPDX-License-Identifier: Apache-2.0
#include "formats/requests.hpp"

#include <gtest/gtest.h>

#include <string>
#include <vector>

namespace duskwire::formats {
namespace {

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

}  // namespace
}  // namespace duskwire::formats
