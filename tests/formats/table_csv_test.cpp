// SPDX-License-Identifier: Apache-2.0
#include "formats/table_csv.hpp"

#include <gtest/gtest.h>

namespace duskwire::formats {
namespace {

TEST(TableCsv, WritesEachKindOfCell) {
  TableData table;
  table.currency = "KWD";
  table.columns = {{"a", "A", ColumnKind::text},
                   {"b_m", "B, m", ColumnKind::number},
                   {"c", "C", ColumnKind::count},
                   {"d", "D", ColumnKind::money}};
  table.rows = {{std::string("x, y"), 1.5, std::int64_t{7}, std::int64_t{-1234}},
                {TableCell{}, TableCell{}, TableCell{}, TableCell{}}};
  EXPECT_EQ(table_csv(table), "a,b_m,c,d\r\n\"x, y\",1.5,7,-1.234\r\n,,,\r\n");
}

TEST(TableCsv, NoTextRunsAsAFormula) {
  TableData table;
  table.columns = {{"name", "Name", ColumnKind::text}};
  for (const char* text : {"=1+1", "+1", "-1", "@sum", "\tx", "\rx"}) table.rows.push_back({std::string(text)});
  EXPECT_EQ(table_csv(table), "name\r\n'=1+1\r\n'+1\r\n'-1\r\n'@sum\r\n'\tx\r\n\"'\rx\"\r\n");
}

}  // namespace
}  // namespace duskwire::formats
