// SPDX-License-Identifier: Apache-2.0
#include "formats/csv_text.hpp"

#include <gtest/gtest.h>

#include <limits>

namespace duskwire::formats {
namespace {

std::string cell(std::string_view text) { return CsvText().text(text).str(); }
std::string number(double value) { return CsvText().number(value).str(); }

// RFC 4180 section 2, rules 5 to 7.
TEST(CsvText, QuotesWhatNeedsQuotes) {
  EXPECT_EQ(cell("plain"), "plain");
  EXPECT_EQ(cell("a,b"), "\"a,b\"");
  EXPECT_EQ(cell("say \"on\""), "\"say \"\"on\"\"\"");
  EXPECT_EQ(cell("two\nlines"), "\"two\nlines\"");
}

TEST(CsvText, TakesTheForceOutOfFormulas) {
  EXPECT_EQ(cell("=1+1"), "'=1+1");
  EXPECT_EQ(cell("+1"), "'+1");
  EXPECT_EQ(cell("-1"), "'-1");
  EXPECT_EQ(cell("@sum"), "'@sum");
  EXPECT_EQ(cell("\tx"), "'\tx");
  EXPECT_EQ(cell("\rx"), "\"'\rx\"");
  EXPECT_EQ(cell("=HYPERLINK(\"a\",\"b\")"), "\"'=HYPERLINK(\"\"a\"\",\"\"b\"\")\"");
  EXPECT_EQ(cell("a=1"), "a=1");
}

TEST(CsvText, NumbersAreShortAndFinite) {
  EXPECT_EQ(number(52), "52");
  EXPECT_EQ(number(46.900000000000006), "46.9");
  EXPECT_EQ(number(0.0004), "0");
  EXPECT_EQ(number(-0.0001), "0");
  EXPECT_EQ(number(-2.5), "-2.5");
  EXPECT_EQ(number(std::numeric_limits<double>::quiet_NaN()), "");
}

TEST(CsvText, RowsEndInCrlf) {
  CsvText csv;
  csv.text("a").count(3);
  csv.end_row();
  csv.text("").text("b").amount("1.20");
  csv.end_row();
  EXPECT_EQ(csv.str(), "a,3\r\n,b,1.20\r\n");
}

}  // namespace
}  // namespace duskwire::formats
