// SPDX-License-Identifier: Apache-2.0
// The command times as a user runs it.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "program.hpp"

namespace duskwire::cli {
namespace {

using Json = nlohmann::ordered_json;

constexpr const char* demo = "duskwire times examples/ostrey-garden-sound.json --year 2026";

TEST(TimesCommand, ShowsTheCardOfTheDemo) {
  const Workplace place;
  const Ended run = place.run(demo);
  EXPECT_EQ(run.code, 0) << run.complaint;
  for (const char* part : {"America/Chicago", "2026-03-08 forward by 60 min to CDT", "from sunset + 15 min to",
                           "December: ", "kWh from the mains"}) {
    EXPECT_NE(run.text.find(part), std::string::npos) << part << "\n" << run.text;
  }
}

// 40 N, 89 W: sunset of 8 March 2026 an hour later by the clock than the evening before.
TEST(TimesCommand, JsonHasEveryDayAndNoSlipWhenClocksChange) {
  const Workplace place;
  const Ended run = place.run(std::string(demo) + " --json --kwh-price 0.18");
  ASSERT_TRUE(Json::accept(run.text)) << run.complaint;
  const Json times = Json::parse(run.text);
  ASSERT_EQ(times.at("days").size(), 365u);
  const std::string before = times["days"][65]["sun"]["sunset"], after = times["days"][66]["sun"]["sunset"];
  EXPECT_EQ(times["days"][66]["date"], "2026-03-08");
  EXPECT_EQ(before.substr(19), "-06:00");
  EXPECT_EQ(after.substr(19), "-05:00");
  EXPECT_EQ(std::stoi(after.substr(11, 2)) - std::stoi(before.substr(11, 2)), 1);
  EXPECT_GT(times.at("cost_minor").get<double>(), 0);
  EXPECT_EQ(times.at("entries").size(), 5u);
  EXPECT_TRUE(times.at("sound").get<bool>());
}

TEST(TimesCommand, WritesACalendarAndDoesNotReplaceOne) {
  const Workplace place;
  const std::string line = std::string(demo) + " --calendar care.ics";
  EXPECT_EQ(place.run(line).code, 0);
  EXPECT_EQ(place.read("care.ics").substr(0, 15), "BEGIN:VCALENDAR");
  EXPECT_EQ(place.run(line).code, 2);
  EXPECT_EQ(place.run(line + " --force").code, 0);
}

TEST(TimesCommand, RefusesWhatItCannotUse) {
  const Workplace place;
  EXPECT_EQ(place.run(std::string(demo) + " --kwh-price cheap").code, 2);
  const Ended far = place.run("duskwire times examples/ostrey-garden-sound.json --year 2090");
  EXPECT_EQ(far.code, 2);
  EXPECT_NE(far.complaint.find("2037"), std::string::npos) << far.complaint;
  EXPECT_EQ(place.run("duskwire times examples/ostrey-garden-sound.json --year 1700").code, 2);
}

TEST(TimesCommand, SaysThatAJobHasNoProgramme) {
  const Workplace place;
  const Ended run = place.run("duskwire times examples/small-garden.json --year 2026");
  EXPECT_EQ(run.code, 0);
  EXPECT_NE(run.text.find("The job has no programme."), std::string::npos) << run.text;
}

}  // namespace
}  // namespace duskwire::cli
