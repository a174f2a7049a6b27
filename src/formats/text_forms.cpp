// SPDX-License-Identifier: Apache-2.0
// Dates and times after ISO 8601 (calendar date, extended format), currencies after ISO 4217, IANA zone names.
#include "formats/text_forms.hpp"

#include <algorithm>
#include <array>
#include <cstdint>

namespace duskwire::formats {
namespace {

#define DUSKWIRE_DATE "[0-9]{4}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])"
#define DUSKWIRE_CLOCK "([01][0-9]|2[0-3]):[0-5][0-9]"

constexpr std::array weekdays{"mon", "tue", "wed", "thu", "fri", "sat", "sun"};

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter(char c) { return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z'); }
bool is_control(char c) { return static_cast<std::uint8_t>(c) < 0x20 || c == 0x7F; }

// The number that `digits` digits at `at` make, -1 where there are none.
int number_at(std::string_view text, std::size_t at, std::size_t digits) {
  if (at + digits > text.size()) return -1;
  int value = 0;
  for (const char c : text.substr(at, digits)) {
    if (!is_digit(c)) return -1;
    value = value * 10 + (c - '0');
  }
  return value;
}

bool within(int value, int min, int max) { return value >= min && value <= max; }

int days_of(int year, int month) {
  constexpr std::array days{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  const bool leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
  return days.at(static_cast<std::size_t>(month - 1)) + (leap && month == 2 ? 1 : 0);
}

bool is_month_day(std::string_view text, int year) {
  if (text.size() != 5 || text[2] != '-') return false;
  const int month = number_at(text, 0, 2);
  return within(month, 1, 12) && within(number_at(text, 3, 2), 1, days_of(year, month));
}

bool is_date(std::string_view text) {
  const int year = number_at(text, 0, 4);
  return text.size() == 10 && year >= 0 && text[4] == '-' && is_month_day(text.substr(5), year);
}

bool is_clock(std::string_view text) {
  return text.size() == 5 && text[2] == ':' && within(number_at(text, 0, 2), 0, 23) &&
         within(number_at(text, 3, 2), 0, 59);
}

bool is_offset(std::string_view text) {
  if (text.empty() || text == "Z") return true;
  return (text[0] == '+' || text[0] == '-') && is_clock(text.substr(1));
}

// ".123" of a second, where there is one.
std::string_view without_fraction(std::string_view text) {
  constexpr std::string_view digits = "0123456789";
  if (text.size() < 2 || text[0] != '.' || digits.find(text[1]) == std::string_view::npos) return text;
  const std::size_t end = text.find_first_not_of(digits, 1);
  return end == std::string_view::npos ? std::string_view() : text.substr(end);
}

bool is_date_or_time(std::string_view text) {
  if (text.size() <= 10) return is_date(text);
  if (!is_date(text.substr(0, 10)) || text[10] != 'T' || !is_clock(text.substr(11, 5))) return false;
  std::string_view rest = text.substr(16);
  if (!rest.empty() && rest[0] == ':') {
    if (!within(number_at(rest, 1, 2), 0, 59)) return false;
    rest = without_fraction(rest.substr(3));
  }
  return is_offset(rest);
}

bool is_time_zone(std::string_view text) {
  bool part_begun = false;
  for (const char c : text) {
    if (c == '/' && part_begun) {
      part_begun = false;
    } else if (is_letter(c) || is_digit(c) || c == '_' || c == '+' || c == '-') {
      part_begun = true;
    } else {
      return false;
    }
  }
  return part_begun;
}

bool is_currency(std::string_view text) {
  return text.size() == 3 && std::all_of(text.begin(), text.end(), [](char c) { return c >= 'A' && c <= 'Z'; });
}

bool is_name(std::string_view text) {
  return !text.empty() && std::none_of(text.begin(), text.end(), [](char c) { return is_control(c) || c == ' '; });
}

bool is_plain(std::string_view text) {
  return std::none_of(text.begin(), text.end(),
                      [](char c) { return is_control(c) && c != '\t' && c != '\n' && c != '\r'; });
}

}  // namespace

const char* pattern_of(Form form) {
  switch (form) {
    case Form::plain:
      return "^[^\\u0000-\\u0008\\u000b\\u000c\\u000e-\\u001f\\u007f]*$";
    case Form::date:
      return "^" DUSKWIRE_DATE "$";
    case Form::date_or_time:
      return "^" DUSKWIRE_DATE "(T" DUSKWIRE_CLOCK "(:[0-5][0-9](\\.[0-9]+)?)?(Z|[+-]" DUSKWIRE_CLOCK ")?)?$";
    case Form::clock:
      return "^" DUSKWIRE_CLOCK "$";
    case Form::month_day:
      return "^(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$";
    case Form::weekday:
      return "^(mon|tue|wed|thu|fri|sat|sun)$";
    case Form::currency:
      return "^[A-Z]{3}$";
    case Form::time_zone:
      return "^[A-Za-z0-9_+\\-]+(/[A-Za-z0-9_+\\-]+)*$";
    case Form::name:
      return "^[^\\u0000-\\u0020\\u007f]+$";
  }
  return "";
}

bool has_form(std::string_view text, Form form) {
  switch (form) {
    case Form::plain:
      return is_plain(text);
    case Form::date:
      return is_date(text);
    case Form::date_or_time:
      return is_date_or_time(text);
    case Form::clock:
      return is_clock(text);
    case Form::month_day:
      return is_month_day(text, 2000);
    case Form::weekday:
      return std::find(weekdays.begin(), weekdays.end(), text) != weekdays.end();
    case Form::currency:
      return is_currency(text);
    case Form::time_zone:
      return is_time_zone(text);
    case Form::name:
      return is_name(text);
  }
  return false;
}

const char* words_for(Form form) {
  switch (form) {
    case Form::plain:
      return "text without control characters";
    case Form::date:
      return "a date such as 2026-03-02";
    case Form::date_or_time:
      return "a date or time such as 2026-03-02 or 2026-03-02T21:40";
    case Form::clock:
      return "a time of day such as 22:30";
    case Form::month_day:
      return "a month and day such as 11-15";
    case Form::weekday:
      return "one of mon, tue, wed, thu, fri, sat, sun";
    case Form::currency:
      return "a currency of three capital letters such as USD";
    case Form::time_zone:
      return "a time zone such as America/Chicago";
    case Form::name:
      return "an id without spaces";
  }
  return "";
}

}  // namespace duskwire::formats
