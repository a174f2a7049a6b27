// SPDX-License-Identifier: Apache-2.0
// When lights are to go on and off: rules by the sun or by the clock, on days of the week, in seasons. A rule makes at
// most one stretch of light in a night. How each case is meant: docs/algorithms/almanac.md.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "almanac/sun_day.hpp"
#include "almanac/zone.hpp"

namespace duskwire::almanac {

enum class SwitchAt : std::uint8_t { clock = 0, sunset = 1, sunrise = 2 };

struct SwitchMoment {
  SwitchAt at = SwitchAt::clock;
  std::int32_t clock_s = 0;   // second of the day, where `at` is clock
  std::int32_t offset_s = 0;  // after sunset or sunrise, where `at` is the sun
};

// First and last day, both in it, as month * 100 + day; from above to: across new year.
struct Season {
  unsigned from_month_day = 101;
  unsigned to_month_day = 1231;
};

inline constexpr std::uint8_t every_weekday = 0x7f;

struct ProgrammeRule {
  SwitchMoment on;
  SwitchMoment off;
  std::uint8_t weekdays = every_weekday;  // bit 0 Monday ... bit 6 Sunday
  std::optional<Season> season;           // absent: the whole year
  double level = 1;                       // share of full light, 0 to 1
};

enum class NightCase : std::uint8_t {
  lit = 0,
  no_sunset = 1,  // the sun stays up all day: nothing to count from, the lights stay off
  over_before_it_begins = 2,
};

// What one rule does on one of its days.
struct Switching {
  std::uint32_t rule = 0;
  Date date;  // the day that the rule counts it to: of the evening, or of the morning where it switches on then
  NightCase night = NightCase::lit;
  std::int64_t on_s = 0;  // seconds of UTC since 1970; of meaning where lit
  std::int64_t off_s = 0;
  ClockCase on_clock = ClockCase::once;  // on a day when clocks change
  ClockCase off_clock = ClockCase::once;
  bool dark_all_day = false;  // the sun stayed down: sunset and sunrise are taken at noon by the sun
};

// Whether the rule runs on that day: by weekday and season.
[[nodiscard]] bool runs_on(const ProgrammeRule& rule, const Date& date);

// In the season, first and last day included.
[[nodiscard]] bool within(const Season& season, const Date& date);

// The rule's stretch on that day, which it runs on. `evening` is the sun's day on which the night begins and `morning`
// the one on which it ends: see night_begins().
[[nodiscard]] Switching switching(const ProgrammeRule& rule, const Zone& zone, const Date& date, const SunDay& evening,
                                  const SunDay& morning);

// The date on whose evening the night of the rule's day begins: the day itself, or the day before where the rule
// switches on in the morning.
[[nodiscard]] Date night_begins(const ProgrammeRule& rule, const Date& date);

struct DayTimes {
  SunDay sun;
  std::vector<Switching> switchings;  // in the order of the rules; rules that do not run that day are left out
};

// Each day of the year.
[[nodiscard]] std::vector<DayTimes> switching_year(const std::vector<ProgrammeRule>& rules, const Place& place,
                                                   const Zone& zone, int year);

}  // namespace duskwire::almanac
