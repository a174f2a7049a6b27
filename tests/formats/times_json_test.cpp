// SPDX-License-Identifier: Apache-2.0
#include "formats/times_json.hpp"

#include <gtest/gtest.h>

namespace duskwire::formats {
namespace {

constexpr const char* chicago_request = R"({"year": 2026, "zone": {"name": "America/Chicago", "changes": [
  {"from_s": 1762066800, "offset_s": -21600, "abbreviation": "CST"},
  {"from_s": 1772956800, "offset_s": -18000, "abbreviation": "CDT"}]},
  "tariff": {"price_minor_per_kwh": 18, "bands": [{"from": "22:00", "to": "06:30", "price_minor_per_kwh": 9.5}]},
  "days": false})";

TEST(TimesRequest, IsReadWithZoneAndTariff) {
  const auto read = read_times_request(chicago_request);
  ASSERT_TRUE(read.request);
  EXPECT_TRUE(read.problems.empty());
  EXPECT_EQ(read.request->year, 2026);
  EXPECT_FALSE(read.request->days);
  ASSERT_EQ(read.request->zone.changes.size(), 2u);
  EXPECT_EQ(read.request->zone.changes[1].offset_s, -18000);
  EXPECT_EQ(read.request->zone.changes[1].abbreviation, "CDT");
  ASSERT_TRUE(read.request->tariff);
  EXPECT_EQ(read.request->tariff->bands[0].from_s, 22 * 3600);
  EXPECT_EQ(read.request->tariff->bands[0].to_s, 6 * 3600 + 1800);
}

TEST(TimesRequest, IsRefusedWithThePlaceOfEachProblem) {
  const auto refused = [](const char* text, const char* pointer) {
    const auto read = read_times_request(text);
    EXPECT_FALSE(read.request) << text;
    bool named = false;
    for (const Problem& problem : read.problems) named = named || problem.pointer == pointer;
    EXPECT_TRUE(named) << text << " " << (read.problems.empty() ? "" : read.problems[0].pointer);
  };
  refused(R"({"year": 2026})", "");                                                        // of the whole: no zone
  refused(R"({"zone": {"name": "UTC", "changes": [{"from_s": 0, "offset_s": 0}]}})", "");  // no year
  refused(R"({"year": 1900, "zone": {"name": "UTC", "changes": [{"from_s": 0, "offset_s": 0}]}})", "/year");
  refused(R"({"year": 2026, "zone": {"name": "UTC", "changes": []}})", "/zone/changes");
  refused(R"({"year": 2026, "zone": {"name": "UTC", "changes": [{"from_s": 5, "offset_s": 0},
                                                                {"from_s": 5, "offset_s": 3600}]}})",
          "/zone/changes");
  refused(R"({"year": 2026, "zone": {"name": "UTC", "changes": [{"from_s": 0, "offset_s": 100000}]}})",
          "/zone/changes/0/offset_s");
  refused(R"({"year": 2026, "zone": {"name": "UTC", "changes": [{"from_s": 0, "offset_s": 0}]},
             "tariff": {"price_minor_per_kwh": 18, "bands": [{"from": "25:00", "to": "06:00",
                                                              "price_minor_per_kwh": 1}]}})",
          "/tariff/bands/0/from");
}

TEST(TimesJson, LeavesOutWhatIsAbsentAndRoundsTheRest) {
  study::Times times;
  times.year = 2026;
  times.energy_kwh = 123.456789;
  study::DayRow day;
  day.date = "2026-06-21";
  day.sun.state = study::DayState::polar_day;
  day.entries.push_back({"evening", study::EntryState::no_sunset, {}, {}, 0, "The sun does not set."});
  times.days.push_back(day);
  const Json out = times_json(times);
  EXPECT_EQ(out["energy_kwh"], 123.4568);
  EXPECT_EQ(out["year"], 2026);
  EXPECT_FALSE(out.contains("cost_minor"));
  EXPECT_EQ(out["days"][0]["sun"]["state"], "polar_day");
  EXPECT_FALSE(out["days"][0]["sun"].contains("sunset"));
  EXPECT_EQ(out["days"][0]["entries"][0]["state"], "no_sunset");
  EXPECT_FALSE(out["days"][0]["entries"][0].contains("on"));
}

}  // namespace
}  // namespace duskwire::formats
