// SPDX-License-Identifier: Apache-2.0
#include "formats/csv_table.hpp"

#include <gtest/gtest.h>

#include "formats/documents.hpp"

namespace duskwire::formats {
namespace {

using Cells = std::vector<std::string>;

std::vector<Cells> cells(const std::string& text) {
  const CsvTable table = read_csv(text);
  EXPECT_TRUE(table.problems.empty()) << told(table.problems);
  std::vector<Cells> out;
  for (const CsvRow& row : table.rows) out.push_back(row.cells);
  return out;
}

// RFC 4180, section 2, rules 1 to 7.
TEST(CsvTable, FollowsTheRulesOfRfc4180) {
  const std::vector<Cells> two{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}};
  EXPECT_EQ(cells("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n"), two);
  EXPECT_EQ(cells("aaa,bbb,ccc\r\nzzz,yyy,xxx"), two);
  EXPECT_EQ(cells("\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx"), two);
  EXPECT_EQ(cells("\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx"),
            (std::vector<Cells>{{"aaa", "b\r\nbb", "ccc"}, two[1]}));
  EXPECT_EQ(cells("\"aaa\",\"b\"\"bb\",\"c,c\""), (std::vector<Cells>{{"aaa", "b\"bb", "c,c"}}));
}

TEST(CsvTable, TakesOtherLineEndsAndAByteOrderMark) {
  const std::vector<Cells> two{{"a", "b"}, {"c", "d"}};
  EXPECT_EQ(cells("a,b\nc,d\n"), two);
  EXPECT_EQ(cells("a,b\rc,d\r"), two);
  EXPECT_EQ(cells("\xEF\xBB\xBF"
                  "a,b\r\nc,d"),
            two);
}

TEST(CsvTable, TheFirstLineTellsTheSeparator) {
  EXPECT_EQ(cells("a;b\n1,5;2\n"), (std::vector<Cells>{{"a", "b"}, {"1,5", "2"}}));
  EXPECT_EQ(cells("a\tb\n1\t2\n"), (std::vector<Cells>{{"a", "b"}, {"1", "2"}}));
  EXPECT_EQ(read_csv("a;b").separator, ';');
  EXPECT_EQ(read_csv("a").separator, ',');
}

TEST(CsvTable, EmptyCellsAreKeptAndBlankLinesAreNot) {
  EXPECT_EQ(cells("a,,\n\n ,\t\n,b,\"\"\n"), (std::vector<Cells>{{"a", "", ""}, {"", "b", ""}}));
  EXPECT_EQ(cells("a,b\n1,"), (std::vector<Cells>{{"a", "b"}, {"1", ""}}));
  EXPECT_TRUE(cells("").empty());
  EXPECT_TRUE(cells("\n\r\n").empty());
}

TEST(CsvTable, RowsKnowTheirLine) {
  const CsvTable table = read_csv("a\n\n\"b\r\nb\"\nc\n\"d\re\"\nf");
  ASSERT_EQ(table.rows.size(), 5u);
  EXPECT_EQ(table.rows[1].line, 3u);
  EXPECT_EQ(table.rows[2].line, 5u);
  EXPECT_EQ(table.rows[4].line, 8u);
}

TEST(CsvTable, SlipsAreToldWithLineAndColumn) {
  const CsvTable open = read_csv("a,b\n1,\"never closed\n2,3\n");
  ASSERT_EQ(open.problems.size(), 1u);
  EXPECT_EQ(open.problems[0].pointer, "line 2, column 2");
  const CsvTable after = read_csv("a,b\n\"1\" x,2\n");
  ASSERT_EQ(after.problems.size(), 1u);
  EXPECT_EQ(after.problems[0].pointer, "line 2, column 1");
  const CsvTable bytes = read_csv("a,b\n1,\xFF\n");
  ASSERT_EQ(bytes.problems.size(), 1u);
  EXPECT_EQ(bytes.problems[0].pointer, "line 2, column 2");
  EXPECT_EQ(bytes.rows[1].cells[1], "\xEF\xBF\xBD");
}

TEST(CsvTable, SizeIsBounded) {
  EXPECT_EQ(read_csv(std::string(20'000'000, 'x')).problems.size(), 1u);
  std::string long_table;
  for (int i = 0; i < 60'000; ++i) long_table += "a\n";
  const CsvTable table = read_csv(long_table);
  EXPECT_EQ(table.problems.size(), 1u);
  EXPECT_EQ(table.rows.size(), 50'000u);
}

}  // namespace
}  // namespace duskwire::formats
