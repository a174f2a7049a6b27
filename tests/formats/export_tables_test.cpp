// SPDX-License-Identifier: Apache-2.0
// The tables of an export say what the report says, and each column says what it means.
#include "formats/export_tables.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "formats/catalogue_file.hpp"
#include "formats/deposit_rules_file.hpp"
#include "formats/documents.hpp"
#include "formats/embedded.hpp"
#include "formats/export_texts.hpp"
#include "formats/job_reader.hpp"
#include "formats/ruleset_file.hpp"
#include "study/check.hpp"
#include "study/price.hpp"

namespace duskwire::formats {
namespace {

using ::testing::HasSubstr;

struct Made {
  study::Report report;
  estimate::Price price;
  std::vector<TableData> tables;
};

Made made_of(const job::Job& job) {
  const job::Catalogue stock = *read_catalogue(embedded_stock_catalogue()).catalogue;
  const study::Ruleset rules = *read_ruleset(embedded_ruleset("us")).ruleset;
  const estimate::Materials materials = estimate::materials(job, stock);
  Made made{study::check(job, rules, stock, {false}), study::price(job, stock, embedded_deposit_rules().rules), {}};
  made.tables = export_tables(job, stock, made.report, materials, made.price);
  return made;
}

job::Job example(const std::string& name) { return *read_job(project_file("examples/" + name)).job; }

const TableData& table_of(const Made& made, const std::string& id) {
  for (const TableData& table : made.tables) {
    if (table.id == id) return table;
  }
  throw std::out_of_range(id);
}

double sum_of(const TableData& table, const std::string& column) {
  double sum = 0;
  for (std::size_t i = 0; i < table.columns.size(); ++i) {
    if (table.columns[i].key != column) continue;
    for (const auto& row : table.rows) {
      if (const auto* number = std::get_if<double>(&row[i])) sum += *number;
      if (const auto* whole = std::get_if<std::int64_t>(&row[i])) sum += static_cast<double>(*whole);
    }
  }
  return sum;
}

TEST(ExportTables, EachColumnHasItsMeaningAndEachRowItsCells) {
  for (const char* name : {"ostrey-garden-sound.json", "small-garden.json"}) {
    for (const TableData& table : made_of(example(name)).tables) {
      for (const TableColumn& column : table.columns) {
        EXPECT_FALSE(meaning_of(table.id, column.key).empty()) << table.id << " " << column.key;
      }
      for (const auto& row : table.rows) EXPECT_EQ(row.size(), table.columns.size()) << table.id;
    }
  }
  EXPECT_EQ(meaning_of("lamps", "no such column"), "");
}

TEST(ExportTables, SumsAreThoseOfReportAndPrice) {
  const job::Job job = example("ostrey-garden-sound.json");
  const Made made = made_of(job);
  EXPECT_EQ(table_of(made, "lamps").rows.size(), job.luminaires.size());
  EXPECT_NEAR(sum_of(table_of(made, "lamps"), "power_va"), made.report.lamp_va, 1e-9);
  EXPECT_NEAR(sum_of(table_of(made, "outputs"), "lamp_va"), made.report.lamp_va, 1e-9);
  EXPECT_EQ(sum_of(table_of(made, "outputs"), "lamp_count"), static_cast<double>(job.luminaires.size()));
  double length_m = 0;
  for (const study::CableReport& cable : made.report.cables) length_m += cable.length_m;
  EXPECT_NEAR(sum_of(table_of(made, "cables"), "length_m"), length_m, 1e-9);
  EXPECT_EQ(sum_of(table_of(made, "price"), "price"), static_cast<double>(made.price.total_minor));
}

TEST(ExportTables, AnEmptyJobHasEveryTableWithItsHead) {
  job::Job job;
  job.title = "Two\nlines";
  const Made made = made_of(job);
  EXPECT_EQ(made.tables.size(), 9u);
  const auto texts = export_texts(job.title, made.tables);
  ASSERT_EQ(texts.size(), 11u);
  EXPECT_EQ(texts.front().text.substr(0, 10), "Two lines\n");
  EXPECT_THAT(texts.front().text, HasSubstr("tables/lamps.csv\n  lamp "));
  for (std::size_t i = 1; i < 10; ++i) EXPECT_THAT(texts[i].text, HasSubstr("\r\n")) << texts[i].name;
}

}  // namespace
}  // namespace duskwire::formats
