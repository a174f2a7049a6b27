// SPDX-License-Identifier: Apache-2.0
#include "almanac/burn.hpp"

#include <gtest/gtest.h>

#include "almanac/zones_2026.hpp"

namespace duskwire::almanac {
namespace {

constexpr std::int32_t hour_s = 3600;

ProgrammeRule rule(SwitchMoment on, SwitchMoment off, double level = 1) {
  ProgrammeRule made;
  made.on = on;
  made.off = off;
  made.level = level;
  return made;
}

const SwitchMoment sunset{SwitchAt::sunset, 0, 0};
const SwitchMoment sunrise{SwitchAt::sunrise, 0, 0};
SwitchMoment at(int hour) { return {SwitchAt::clock, hour * hour_s, 0}; }

Burn year_burn(const ProgrammeRule& wanted, const Place& place, const Zone& zone, int year, bool last_night = true) {
  std::vector<DayTimes> days = switching_year({wanted}, place, zone, year);
  if (!last_night) days.pop_back();
  return burn(lit_intervals(days, {wanted}, {0}));
}

// Sums from the minutes of the US Naval Observatory's tables for 2019, tolerance 0.1 %.
TEST(Burn, NightsOfAYearAddUpToTheTables) {
  const Zone new_york = testing::new_york_2019();
  const Zone london = testing::london_2019();
  const Place south{29, -81}, north{60, 0};
  EXPECT_NEAR(year_burn(rule(sunset, sunrise), south, new_york, 2019, false).hours, 4306.13, 4.306);
  EXPECT_NEAR(year_burn(rule(sunset, at(23)), south, new_york, 2019).hours, 1410.90, 1.411);
  EXPECT_NEAR(year_burn(rule(sunset, sunrise), north, london, 2019, false).hours, 4221.68, 4.222);
  EXPECT_NEAR(year_burn(rule(sunset, at(23)), north, london, 2019).hours, 1544.77, 1.545);
}

// 150 W behind a supply of 85 %, 5 h a day, 365 days: 150 / 0.85 x 5 x 365 / 1000 = 322.059 kWh.
TEST(Burn, EnergyOfPlainHours) {
  const std::vector<ProgrammeRule> rules{rule(at(18), at(23))};
  const auto lit = lit_intervals(switching_year(rules, {41.6, -93.6}, testing::chicago_2026(), 2026), rules, {0});
  EXPECT_DOUBLE_EQ(burn(lit).hours, 365 * 5);
  const Supply supply{150, 150 / 0.85 - 150, 0};
  const Use use = supply_use(supply, {150}, {lit}, {20, {}}, testing::chicago_2026());
  EXPECT_NEAR(use.energy_kwh, 322.059, 0.001);
  EXPECT_NEAR(use.cost_minor, 20 * 322.059, 0.02);
}

TEST(Burn, WhatSwitchedOnLastSaysHowBright) {
  const std::vector<ProgrammeRule> rules{rule(at(18), at(24 - 1)), rule(at(21), at(22), 0.4)};
  const auto days = switching_year(rules, {41.6, -93.6}, testing::chicago_2026(), 2026);
  const auto lit = lit_intervals({days.front()}, rules, {0, 1});
  ASSERT_EQ(lit.size(), 3u);
  EXPECT_DOUBLE_EQ(lit[0].level, 1);
  EXPECT_DOUBLE_EQ(lit[1].level, 0.4);
  EXPECT_DOUBLE_EQ(lit[2].level, 1);
  EXPECT_DOUBLE_EQ(burn(lit).hours, 5);
  EXPECT_DOUBLE_EQ(burn(lit).full_hours, 4.4);
}

TEST(Burn, ALevelOfNothingIsDark) {
  const std::vector<ProgrammeRule> rules{rule(at(18), at(23)), rule(at(21), at(22), 0)};
  const auto days = switching_year(rules, {41.6, -93.6}, testing::chicago_2026(), 2026);
  EXPECT_DOUBLE_EQ(burn(lit_intervals({days.front()}, rules, {0, 1})).hours, 4);
}

TEST(Burn, OverlapsAreNotCountedTwice) {
  const std::vector<ProgrammeRule> rules{rule(at(18), at(22)), rule(at(20), at(23))};
  const auto days = switching_year(rules, {41.6, -93.6}, testing::chicago_2026(), 2026);
  EXPECT_DOUBLE_EQ(burn(lit_intervals({days.front()}, rules, {0, 1})).hours, 5);
  EXPECT_DOUBLE_EQ(burn(lit_intervals({days.front()}, rules, {1})).hours, 3);
}

// 100 W from 20:00 to 02:00; 30 a kWh, from 22:00 to 06:00 only 10: 2 h dear and 4 h cheap, 0.2 x 30 + 0.4 x 10.
TEST(Burn, NightTariffRunsAcrossMidnight) {
  const std::vector<ProgrammeRule> rules{rule(at(20), at(2))};
  const Zone zone = testing::chicago_2026();
  const auto days = switching_year(rules, {41.6, -93.6}, zone, 2026);
  const auto lit = lit_intervals({days[40]}, rules, {0});
  const Tariff tariff{30, {{22 * hour_s, 6 * hour_s, 10}}};
  const Use use = supply_use({100, 0, 0}, {100}, {lit}, tariff, zone);
  EXPECT_NEAR(use.energy_kwh, 0.6, 1e-9);
  EXPECT_NEAR(use.cost_minor, 0.2 * 30 + 0.4 * 10, 1e-9);
  // The clocks go forward at 02:00 on 8 March 2026 and back on 1 November: 20:00 to 04:00 is an hour less and more.
  const std::vector<ProgrammeRule> longer{rule(at(20), at(4))};
  const auto year = switching_year(longer, {41.6, -93.6}, zone, 2026);
  EXPECT_DOUBLE_EQ(burn(lit_intervals({year[31 + 28 + 6]}, longer, {0})).hours, 7);
  EXPECT_DOUBLE_EQ(burn(lit_intervals({year[303]}, longer, {0})).hours, 9);
}

// Half the lamps: core loss whole, copper loss a quarter. 50 + 6 + 8/4 W for an hour, then all: 100 + 6 + 8.
TEST(Burn, LossesFollowTheLoad) {
  const std::vector<Interval> first{{0, 2 * hour_s, 1}};
  const std::vector<Interval> second{{hour_s, 2 * hour_s, 1}};
  const Use use = supply_use({100, 8, 6}, {50, 50}, {first, second}, {}, utc_zone());
  EXPECT_NEAR(use.energy_kwh, (58 + 114) / 1000.0, 1e-12);
}

}  // namespace
}  // namespace duskwire::almanac
