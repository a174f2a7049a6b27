// SPDX-License-Identifier: Apache-2.0
#include "formats/text_forms.hpp"

#include <gtest/gtest.h>

#include <regex>
#include <string>
#include <vector>

namespace duskwire::formats {
namespace {

struct Case {
  Form form;
  std::vector<std::string> good;
  std::vector<std::string> bad;
};

const std::vector<Case> cases{
    {Form::date,
     {"2026-03-02", "2024-02-29", "2000-02-29", "0001-12-31"},
     {"", "2026-3-2", "2026-13-01", "2026-00-10", "2026-04-31", "2026-02-29", "1900-02-29", "2026-03-02T10:00",
      "02.03.2026", "2026-03-0x", "2026x03-02"}},
    {Form::date_or_time,
     {"2026-03-02", "2026-03-02T21:40", "2026-03-02T21:40:09", "2026-03-02T21:40Z", "2026-03-02T21:40:09+01:00",
      "2026-03-02T21:40-05:00", "2026-03-02T21:40:09.5", "2026-03-02T21:40:09.125Z"},
     {"2026-03-02T", "2026-03-02T24:00", "2026-03-02T21:60", "2026-03-02 21:40", "2026-03-02T21:40:60",
      "2026-03-02T21:40:", "2026-03-02T21:40+1:00", "2026-03-02T21:40z", "2026-02-30T10:00", "2026-03-02T21:40:09.",
      "2026-03-02T21:40:09.x"}},
    {Form::clock, {"00:00", "23:59"}, {"24:00", "7:30", "07:60", "07.30", "07:30:00", ""}},
    {Form::month_day, {"02-29", "12-31"}, {"02-30", "13-01", "00-01", "1-1", "12/31", ""}},
    {Form::weekday, {"mon", "sun"}, {"Mon", "monday", ""}},
    {Form::currency, {"USD", "EUR"}, {"usd", "US", "EURO", "", "U$D"}},
    {Form::time_zone,
     {"America/Chicago", "UTC", "America/Argentina/Buenos_Aires", "Etc/GMT+3", "Etc/GMT-14"},
     {"", "/UTC", "America/", "America//Chicago", "America Chicago", "America{"}},
    {Form::name, {"T1-A", "2.5mm2-2", "\xC3\xA4"}, {"", "a b", "a\tb", "a\x7F"}},
    {Form::plain, {"", "a b", "two\nlines\r\nand\ta tab"}, {std::string(1, '\0'), "a\x01", "a\x7F", "\x0B"}},
};

TEST(TextForms, TakeWhatIsOfTheForm) {
  for (const Case& each : cases) {
    for (const std::string& text : each.good) EXPECT_TRUE(has_form(text, each.form)) << text;
  }
}

TEST(TextForms, RefuseWhatIsNot) {
  for (const Case& each : cases) {
    for (const std::string& text : each.bad) EXPECT_FALSE(has_form(text, each.form)) << text;
  }
}

// The pattern of the schema says the same, but that it does not know the length of a month.
TEST(TextForms, PatternTakesWhateverTheReaderTakes) {
  for (const Case& each : cases) {
    if (each.form == Form::plain || each.form == Form::name) continue;  // \u escapes: std::regex has no Unicode
    const std::regex pattern(pattern_of(each.form));
    for (const std::string& text : each.good) EXPECT_TRUE(std::regex_match(text, pattern)) << text;
    for (const std::string& text : each.bad) {
      const bool wrong_day =
          text == "2026-04-31" || text.starts_with("2026-02-") || text == "1900-02-29" || text == "02-30";
      EXPECT_EQ(std::regex_match(text, pattern), wrong_day) << text;
    }
  }
}

TEST(TextForms, EveryFormHasWords) {
  for (const Case& each : cases) EXPECT_STRNE(words_for(each.form), "");
}

}  // namespace
}  // namespace duskwire::formats
