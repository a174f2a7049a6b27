// SPDX-License-Identifier: Apache-2.0
#include "almanac/programme.hpp"

#include <gtest/gtest.h>

#include "almanac/zones_2026.hpp"

namespace duskwire::almanac {
namespace {

const Place site{41.6, -93.6};
const Place arctic{66.9, 25.0};

SwitchMoment sunset(int offset_min = 0) { return {SwitchAt::sunset, 0, offset_min * 60}; }
SwitchMoment sunrise(int offset_min = 0) { return {SwitchAt::sunrise, 0, offset_min * 60}; }
SwitchMoment at(int hour, int minute = 0) { return {SwitchAt::clock, (hour * 60 + minute) * 60, 0}; }

ProgrammeRule rule(SwitchMoment on, SwitchMoment off) {
  ProgrammeRule made;
  made.on = on;
  made.off = off;
  return made;
}

// The one stretch of a rule on a date.
Switching on_date(const ProgrammeRule& wanted, const Place& place, const Zone& zone, const Date& date) {
  for (const DayTimes& day : switching_year({wanted}, place, zone, static_cast<int>(date.year()))) {
    if (day.sun.date == date && !day.switchings.empty()) return day.switchings.front();
  }
  ADD_FAILURE() << "the rule does not run on " << date_text(date);
  return {};
}

std::size_t nights(const ProgrammeRule& wanted, NightCase kind, const Place& place, const Zone& zone) {
  std::size_t count = 0;
  for (const DayTimes& day : switching_year({wanted}, place, zone, 2026)) {
    for (const Switching& s : day.switchings) count += s.night == kind ? 1 : 0;
  }
  return count;
}

// Acceptance story "Clock": site S, on = sunset + 15 min, off 23:00, sunsets within two minutes.
TEST(Programme, StoryOfTheClockAtSiteS) {
  const Zone zone = testing::chicago_2026();
  struct {
    const char* date;
    const char* sunset;
  } const days[] = {{"2026-03-07", "2026-03-07T18:12:00-06:00"},
                    {"2026-03-08", "2026-03-08T19:13:00-05:00"},
                    {"2026-06-21", "2026-06-21T20:52:00-05:00"},
                    {"2026-11-01", "2026-11-01T17:09:00-06:00"},
                    {"2026-12-21", "2026-12-21T16:47:00-06:00"}};
  for (const auto& day : days) {
    const Date date = testing::read_date(day.date);
    const Switching night = on_date(rule(sunset(15), at(23)), site, zone, date);
    EXPECT_EQ(night.night, NightCase::lit);
    const std::string text = day.sunset;
    const int sign = text[19] == '-' ? 1 : -1;
    const std::int64_t expected_s = testing::read_utc_s(text) + sign * std::stoi(text.substr(20, 2)) * 3600;
    EXPECT_NEAR(static_cast<double>(night.on_s - 15 * 60), static_cast<double>(expected_s), 120) << day.date;
    EXPECT_EQ(local_text(zone, night.off_s), std::string(day.date) + "T23:00:00" + text.substr(19)) << day.date;
  }
  const Switching change = on_date(rule(sunset(15), at(23)), site, zone, make_date(2026, 3, 8));
  EXPECT_EQ(clock_text(zone, change.on_s), "19:28");
}

TEST(Programme, StoryOfTheClockAtSydneyAndInTheNorth) {
  const Zone sydney = testing::sydney_2026();
  const Place harbour{-33.9, 151.2};
  const Switching before = on_date(rule(sunset(), at(23)), harbour, sydney, make_date(2026, 4, 4));
  const Switching after = on_date(rule(sunset(), at(23)), harbour, sydney, make_date(2026, 4, 5));
  EXPECT_NEAR(static_cast<double>(before.on_s), static_cast<double>(testing::read_utc_s("2026-04-04T07:47:00Z")), 120);
  EXPECT_NEAR(static_cast<double>(after.on_s), static_cast<double>(testing::read_utc_s("2026-04-05T07:45:00Z")), 120);
  const Zone helsinki = testing::helsinki_2026();
  EXPECT_EQ(on_date(rule(sunset(), at(23)), arctic, helsinki, make_date(2026, 6, 21)).night, NightCase::no_sunset);
  const Switching winter = on_date(rule(sunset(), at(23)), arctic, helsinki, make_date(2026, 12, 21));
  EXPECT_NEAR(static_cast<double>(winter.on_s), static_cast<double>(testing::read_utc_s("2026-12-21T11:08:00Z")), 120);
}

TEST(Programme, LaterSunsetThanTheOffTimeLightsNothing) {
  // At 60 N on the meridian of Greenwich the sun sets at 21:28 UTC, 22:28 by summer time (sun.csv, row U034).
  const Zone zone{"test", {{0, 3600, "BST"}}};
  const Switching night = on_date(rule(sunset(), at(22)), {60, 0}, zone, make_date(2026, 6, 21));
  EXPECT_EQ(night.night, NightCase::over_before_it_begins);
}

TEST(Programme, BeforeDawnBelongsToTheMorning) {
  const Zone zone = testing::chicago_2026();
  ProgrammeRule dawn = rule(at(5), sunrise(-10));
  dawn.weekdays = 1 << 0;  // Mondays
  const Switching monday = on_date(dawn, site, zone, make_date(2026, 1, 5));
  EXPECT_EQ(local_text(zone, monday.on_s), "2026-01-05T05:00:00-06:00");
  EXPECT_EQ(date_text(local_time(zone, monday.off_s).date), "2026-01-05");
  EXPECT_EQ(nights(dawn, NightCase::lit, site, zone) + nights(dawn, NightCase::over_before_it_begins, site, zone), 52u);
  // Sunrise is before 05:10 in no month at this place by the clock, yet before 06:00 in summer.
  EXPECT_EQ(nights(rule(at(5), sunrise(-10)), NightCase::over_before_it_begins, site, zone), 0u);
  EXPECT_GT(nights(rule(at(6), sunrise(-10)), NightCase::over_before_it_begins, site, zone), 60u);
}

TEST(Programme, OffAfterMidnightIsOnTheNextDate) {
  const Zone zone = testing::chicago_2026();
  const Switching night = on_date(rule(sunset(), at(1)), site, zone, make_date(2026, 12, 31));
  EXPECT_EQ(local_text(zone, night.off_s), "2027-01-01T01:00:00-06:00");
}

TEST(Programme, FromClockToClockRunsToTheNextTime) {
  const Zone zone = testing::chicago_2026();
  const Switching day = on_date(rule(at(10), at(14)), site, zone, make_date(2026, 2, 3));
  EXPECT_EQ(local_text(zone, day.on_s), "2026-02-03T10:00:00-06:00");
  EXPECT_EQ(local_text(zone, day.off_s), "2026-02-03T14:00:00-06:00");
  const Switching round = on_date(rule(at(18), at(17)), site, zone, make_date(2026, 2, 3));
  EXPECT_EQ(local_text(zone, round.off_s), "2026-02-04T17:00:00-06:00");
}

TEST(Programme, OnDaysWhenClocksChangeSaysSo) {
  const Zone zone = testing::chicago_2026();
  const Switching skipped = on_date(rule(at(2, 30), at(4)), site, zone, make_date(2026, 3, 8));
  EXPECT_EQ(skipped.on_clock, ClockCase::skipped);
  EXPECT_EQ(local_text(zone, skipped.on_s), "2026-03-08T03:30:00-05:00");
  const Switching repeated = on_date(rule(sunset(), at(1, 30)), site, zone, make_date(2026, 10, 31));
  EXPECT_EQ(repeated.off_clock, ClockCase::repeated);
  EXPECT_EQ(local_text(zone, repeated.off_s), "2026-11-01T01:30:00-05:00");
}

TEST(Programme, SeasonsRunAcrossNewYearAndThroughLeapDays) {
  const Season winter{1129, 106};
  EXPECT_TRUE(within(winter, make_date(2026, 11, 29)));
  EXPECT_TRUE(within(winter, make_date(2027, 1, 6)));
  EXPECT_FALSE(within(winter, make_date(2027, 1, 7)));
  EXPECT_FALSE(within(winter, make_date(2026, 11, 28)));
  const Season to_leap_day{201, 229};
  EXPECT_TRUE(within(to_leap_day, make_date(2028, 2, 29)));
  EXPECT_FALSE(within(to_leap_day, make_date(2027, 3, 1)));
  ProgrammeRule feast = rule(sunset(), at(23));
  feast.season = winter;
  EXPECT_EQ(nights(feast, NightCase::lit, site, testing::chicago_2026()), 6u + 2 + 31);
}

TEST(Programme, WeekdaysAreThoseOfTheEvening) {
  ProgrammeRule weekend = rule(sunset(), at(1));
  weekend.weekdays = 1 << 4 | 1 << 5;  // Friday and Saturday
  for (const DayTimes& day : switching_year({weekend}, site, testing::chicago_2026(), 2026)) {
    EXPECT_EQ(day.switchings.size(), weekday_of(day.sun.date) == 4 || weekday_of(day.sun.date) == 5 ? 1u : 0u);
  }
  EXPECT_EQ(weekday_of(make_date(2026, 11, 27)), 4u);  // a Friday
}

TEST(Programme, InPolarNightDuskAndDawnMeetAtNoon) {
  const Place tromso{69.68, 18.94};
  const Zone zone{"test", {{0, 3600, "CET"}}};
  const Switching night = on_date(rule(sunset(), sunrise()), tromso, zone, make_date(2026, 12, 20));
  EXPECT_TRUE(night.dark_all_day);
  EXPECT_EQ(night.night, NightCase::lit);
  const SunDay sun = sun_day(tromso, make_date(2026, 12, 20), 3600);
  EXPECT_EQ(sun.sun.state, SunState::always_below);
  EXPECT_NEAR(static_cast<double>(night.on_s), sun.noon_s, 1);
  EXPECT_NEAR(static_cast<double>(night.off_s - night.on_s), 86400, 60);
  EXPECT_EQ(on_date(rule(sunset(), sunrise()), tromso, zone, make_date(2026, 6, 20)).night, NightCase::no_sunset);
}

TEST(Programme, ASunsetAfterMidnightStillBelongsToItsEvening) {
  // At 69.68 N the last sunsets before the midnight sun come after midnight by summer time (UTC+2).
  const Zone zone{"test", {{0, 7200, "CEST"}}};
  const Switching night = on_date(rule(sunset(), sunrise()), {69.68, 18.94}, zone, make_date(2026, 5, 16));
  EXPECT_EQ(night.night, NightCase::lit);
  EXPECT_EQ(date_text(local_time(zone, night.on_s).date), "2026-05-17");
}

}  // namespace
}  // namespace duskwire::almanac
