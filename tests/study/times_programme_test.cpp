// SPDX-License-Identifier: Apache-2.0
#include "study/times_programme.hpp"

#include <gtest/gtest.h>

namespace duskwire::study {
namespace {

TEST(EntryWords, SayWhatTheEntryDoes) {
  job::ProgrammeEntry entry;
  entry.on = {job::SwitchBase::sunset, "", 15, {}};
  entry.off = {job::SwitchBase::clock, "23:00", {}, {}};
  EXPECT_EQ(entry_words(entry), "from sunset + 15 min to 23:00, every day");
  entry.on.offset_min = -7.5;
  entry.off = {job::SwitchBase::sunrise, "", {}, {}};
  entry.days = {"fri", "sat"};
  entry.from_day = "11-29";
  entry.to_day = "01-06";
  entry.dim_pct = 40;
  EXPECT_EQ(entry_words(entry), "from sunset - 7.5 min to sunrise, fri, sat, 29 Nov to 6 Jan, at 40 %");
}

TEST(TimedProgramme, TranslatesEachEntry) {
  job::Job job;
  job.luminaires.resize(2);
  job.luminaires[0].zone = "front";
  job::ProgrammeEntry entry;
  entry.on = {job::SwitchBase::clock, "05:30", {}, {}};
  entry.off = {job::SwitchBase::sunrise, "", -10, {}};
  entry.zones = {"front"};
  entry.days = {"mon", "sun"};
  entry.from_day = "02-29";
  entry.to_day = "03-01";
  entry.dim_pct = 250;
  job.programme = {entry};
  const TimedProgramme read = timed_programme(job, {no_transformer, no_transformer});
  ASSERT_EQ(read.rules.size(), 1u);
  const almanac::ProgrammeRule& rule = read.rules[0];
  EXPECT_EQ(rule.on.clock_s, (5 * 60 + 30) * 60);
  EXPECT_EQ(rule.off.at, almanac::SwitchAt::sunrise);
  EXPECT_EQ(rule.off.offset_s, -600);
  EXPECT_EQ(rule.weekdays, 1 | 1 << 6);
  EXPECT_EQ(rule.season->from_month_day, 229u);
  EXPECT_EQ(rule.season->to_month_day, 301u);
  EXPECT_EQ(rule.level, 1);
  EXPECT_EQ(read.lamps[0], std::vector<std::uint32_t>{0});
  EXPECT_TRUE(read.rules_of[1].empty());
}

}  // namespace
}  // namespace duskwire::study
