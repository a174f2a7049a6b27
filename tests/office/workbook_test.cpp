// SPDX-License-Identifier: Apache-2.0
// Workbooks are read back by openpyxl (python3-openpyxl), a reader that has nothing to do with the writer.
#include "office/workbook.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "office/read_back.hpp"

namespace duskwire::office {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

TableData small_table() {
  TableData table;
  table.id = "materials";
  table.title = "Materials";
  table.currency = "USD";
  table.columns = {{"item", "Item", ColumnKind::text},
                   {"cut_m", "Cut, m", ColumnKind::number},
                   {"pieces", "Pieces", ColumnKind::count},
                   {"price", "Price", ColumnKind::money}};
  table.rows = {{std::string("=HYPERLINK(\"x\")"), 31.25, std::int64_t{4}, std::int64_t{126530}},
                {std::string("Ωμέγα 灯 ضوء"), TableCell{}, std::int64_t{0}, std::int64_t{-5}}};
  table.note = "An estimate.";
  return table;
}

constexpr std::int64_t created_s = 1'790'000'000;  // 2026-09-21T14:13:20Z

std::string read_back(const std::string& bytes) {
  return testing::told_by("/usr/bin/python3 '" DUSKWIRE_SOURCE_DIR "/tests/office/read_workbook.py' {}", bytes,
                          ".xlsx");
}

TEST(Workbook, IsReadBackByAnotherReaderAsItWasGiven) {
  const Result<std::string> bytes = workbook({small_table()}, {"Garden Ω", created_s});
  ASSERT_TRUE(bytes.ok()) << bytes.error().message;
  const std::string seen = read_back(bytes.value());
  ASSERT_FALSE(seen.empty()) << "python3-openpyxl is needed: tools/ensure_packages test";
  EXPECT_THAT(seen, HasSubstr("title Garden Ω\n"));
  EXPECT_THAT(seen, HasSubstr("created 2026-09-21T14:13:20\n"));
  EXPECT_THAT(seen, HasSubstr("sheet Materials frozen A4 filter A3:D5\n"));
  EXPECT_THAT(seen, HasSubstr("B3 s 'Cut, m'"));
  EXPECT_THAT(seen, HasSubstr("B4 n 31.25 0.###\n"));
  EXPECT_THAT(seen, HasSubstr("C4 n 4 0\n"));
  EXPECT_THAT(seen, HasSubstr("D4 n 1265.3 #,##0.00\n"));
  EXPECT_THAT(seen, HasSubstr("D5 n -0.05 #,##0.00\n"));
  EXPECT_THAT(seen, HasSubstr("A5 s 'Ωμέγα 灯 ضوء' @\n"));
  EXPECT_THAT(seen, Not(HasSubstr("B5 ")));
  EXPECT_THAT(seen, HasSubstr("A7 s 'An estimate.'"));
}

// openpyxl gives a cell that holds a formula the type f; this one is in the shared strings and stays one.
TEST(Workbook, ATextThatLooksLikeAFormulaStaysText) {
  const Result<std::string> bytes = workbook({small_table()}, {"", created_s});
  ASSERT_TRUE(bytes.ok());
  const std::string sheet = testing::told_by(
      "/usr/bin/python3 -c \"import sys, zipfile; "
      "print(zipfile.ZipFile(sys.argv[1]).read('xl/worksheets/sheet1.xml').decode())\" {}",
      bytes.value(), ".xlsx");
  ASSERT_THAT(sheet, HasSubstr("<sheetData>"));
  EXPECT_THAT(sheet, Not(HasSubstr("<f>")));
  EXPECT_THAT(sheet, HasSubstr("<c r=\"A4\" s=\"3\" t=\"s\">"));
}

TEST(Workbook, SheetNamesAreShortDifferentAndAllowed) {
  TableData first = small_table();
  first.title = "Runs: T1/T2 [all] with a name that is longer than any sheet's";
  TableData second = first;
  second.title = first.title + " too";
  const Result<std::string> bytes = workbook({first, second}, {"", created_s});
  ASSERT_TRUE(bytes.ok()) << bytes.error().message;
  const std::string seen = read_back(bytes.value());
  EXPECT_THAT(seen, HasSubstr("sheet Runs  T1 T2  all  with a name t frozen"));
  EXPECT_THAT(seen, HasSubstr("sheet Runs  T1 T2  all  with a name 2 frozen"));
}

TEST(Workbook, SameTablesGiveTheSameBytes) {
  const auto once = workbook({small_table()}, {"x", created_s});
  const auto again = workbook({small_table()}, {"x", created_s});
  ASSERT_TRUE(once.ok() && again.ok());
  EXPECT_EQ(once.value(), again.value());
}

TEST(Workbook, NeedsATable) { EXPECT_FALSE(workbook({}, {"", 0}).ok()); }

}  // namespace
}  // namespace duskwire::office
