// SPDX-License-Identifier: Apache-2.0
// Days of the Gregorian calendar without a clock: counting them, their day of the week, their text.
#pragma once

#include <chrono>
#include <cstdint>
#include <string>

namespace duskwire::almanac {

using Date = std::chrono::year_month_day;

inline constexpr std::int64_t seconds_per_day = 86'400;

[[nodiscard]] inline Date make_date(int year, unsigned month, unsigned day) {
  return {std::chrono::year{year}, std::chrono::month{month}, std::chrono::day{day}};
}

// Days since 1970-01-01.
[[nodiscard]] inline std::int64_t day_number(const Date& date) {
  return std::chrono::sys_days{date}.time_since_epoch().count();
}

[[nodiscard]] inline Date date_of(std::int64_t day_number) {
  return Date{std::chrono::sys_days{std::chrono::days{day_number}}};
}

[[nodiscard]] inline Date later_by(const Date& date, std::int64_t days) { return date_of(day_number(date) + days); }

// 0 Monday ... 6 Sunday.
[[nodiscard]] inline unsigned weekday_of(const Date& date) {
  return std::chrono::weekday{std::chrono::sys_days{date}}.iso_encoding() - 1;
}

// Month and day as one number that sorts: 1224 for 24 December.
[[nodiscard]] inline unsigned month_day(const Date& date) {
  return static_cast<unsigned>(date.month()) * 100 + static_cast<unsigned>(date.day());
}

// "2026-03-08".
[[nodiscard]] std::string date_text(const Date& date);

}  // namespace duskwire::almanac
