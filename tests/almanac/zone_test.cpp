// SPDX-License-Identifier: Apache-2.0
#include "almanac/zone.hpp"

#include <gtest/gtest.h>

#include "almanac/zones_2026.hpp"

namespace duskwire::almanac {
namespace {

constexpr std::int32_t hour_s = 3600;

TEST(Zone, ATimeThatTheClocksSkipIsReadWithTheOffsetBefore) {
  const Zone zone = testing::chicago_2026();
  const ClockMoment moment = moment_of(zone, make_date(2026, 3, 8), 2 * hour_s + 1800);
  EXPECT_EQ(moment.clock, ClockCase::skipped);
  EXPECT_EQ(local_text(zone, moment.utc_s), "2026-03-08T03:30:00-05:00");
}

TEST(Zone, ATimeThatTheClocksShowTwiceIsTheFirst) {
  const Zone zone = testing::chicago_2026();
  const ClockMoment moment = moment_of(zone, make_date(2026, 11, 1), hour_s + 1800);
  EXPECT_EQ(moment.clock, ClockCase::repeated);
  EXPECT_EQ(local_text(zone, moment.utc_s), "2026-11-01T01:30:00-05:00");
}

TEST(Zone, TimesBesideAChangeOccurOnce) {
  const Zone zone = testing::chicago_2026();
  for (const int second : {2 * hour_s - 1, 3 * hour_s, 23 * hour_s}) {
    EXPECT_EQ(moment_of(zone, make_date(2026, 3, 8), second).clock, ClockCase::once) << second;
  }
  for (const int second : {hour_s - 1, 2 * hour_s}) {
    EXPECT_EQ(moment_of(zone, make_date(2026, 11, 1), second).clock, ClockCase::once) << second;
  }
}

TEST(Zone, LocalTimeAndMomentAreInverse) {
  const Zone zone = testing::sydney_2026();
  for (std::int64_t utc_s = testing::read_utc_s("2026-01-01T00:00:00Z");
       utc_s < testing::read_utc_s("2027-01-01T00:00:00Z"); utc_s += 7351) {
    const LocalTime local = local_time(zone, utc_s);
    const ClockMoment back = moment_of(zone, local.date, local.second_of_day);
    if (back.clock == ClockCase::repeated) continue;
    ASSERT_EQ(back.utc_s, utc_s);
  }
}

TEST(Zone, TellsTheDaysOfAYearOnWhichClocksChange) {
  const auto changes = clock_changes(testing::sydney_2026(), 2026);
  ASSERT_EQ(changes.size(), 2u);
  EXPECT_EQ(date_text(changes[0].date), "2026-04-05");
  EXPECT_EQ(changes[0].by_s, -hour_s);
  EXPECT_EQ(date_text(changes[1].date), "2026-10-04");
  EXPECT_EQ(changes[1].by_s, hour_s);
  EXPECT_TRUE(clock_changes(utc_zone(), 2026).empty());
}

TEST(Zone, WritesHalfHoursAndTimesBeforeNineteenSeventy) {
  const Zone kolkata{"Asia/Kolkata", {{0, 19800, "IST"}}};
  EXPECT_EQ(local_text(kolkata, 0), "1970-01-01T05:30:00+05:30");
  EXPECT_EQ(local_text(utc_zone(), -1), "1969-12-31T23:59:59+00:00");
  EXPECT_EQ(clock_text(utc_zone(), 89), "00:01");
  EXPECT_EQ(clock_text(utc_zone(), 90), "00:02");
}

}  // namespace
}  // namespace duskwire::almanac
