// SPDX-License-Identifier: Apache-2.0
#include "paper/amounts.hpp"

#include <fmt/format.h>

#include <chrono>
#include <cmath>
#include <optional>

#include "base/currency.hpp"

namespace duskwire::paper {
namespace {

using std::chrono::year_month_day;

std::optional<year_month_day> day_of(const std::string& date) {
  if (date.size() < 10 || date[4] != '-' || date[7] != '-') return std::nullopt;
  const auto digits = [&](std::size_t from, std::size_t count) {
    int value = 0;
    for (std::size_t i = from; i < from + count; ++i) {
      if (date[i] < '0' || date[i] > '9') return -1;
      value = 10 * value + (date[i] - '0');
    }
    return value;
  };
  const int year = digits(0, 4);
  const int month = digits(5, 2);
  const int day = digits(8, 2);
  if (year < 0 || month < 0 || day < 0) return std::nullopt;
  const year_month_day found{std::chrono::year(year), std::chrono::month(static_cast<unsigned>(month)),
                             std::chrono::day(static_cast<unsigned>(day))};
  return found.ok() ? std::optional(found) : std::nullopt;
}

std::string text_of(const year_month_day& day) {
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(day.year()), static_cast<unsigned>(day.month()),
                     static_cast<unsigned>(day.day()));
}

}  // namespace

std::string money_words(std::int64_t minor, const std::string& currency) {
  std::string amount = decimal_amount(minor, currency);
  const std::size_t point = amount.find('.');
  std::size_t at = point == std::string::npos ? amount.size() : point;
  const std::size_t first = minor < 0 ? 1 : 0;
  while (at > first + 3) {
    at -= 3;
    amount.insert(at, 1, ',');
  }
  return amount + " " + currency;
}

std::string days_on(const std::string& date, int days) {
  const auto day = day_of(date);
  if (!day) return "";
  return text_of(year_month_day(std::chrono::sys_days(*day) + std::chrono::days(days)));
}

std::string years_on(const std::string& date, double years) {
  const auto day = day_of(date);
  if (!day || !(std::abs(years) < 1000)) return "";
  year_month_day later = *day + std::chrono::months(std::lround(12 * years));
  // The 29th of February, and its like.
  if (!later.ok()) later = later.year() / later.month() / std::chrono::last;
  return text_of(later);
}

}  // namespace duskwire::paper
