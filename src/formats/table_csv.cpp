// SPDX-License-Identifier: Apache-2.0
#include "formats/table_csv.hpp"

#include <cstddef>

#include "base/currency.hpp"
#include "formats/csv_text.hpp"

namespace duskwire::formats {
namespace {

void add_cell(CsvText& csv, const TableCell& cell, ColumnKind kind, const std::string& currency) {
  if (const auto* text = std::get_if<std::string>(&cell)) {
    csv.text(*text);
  } else if (const auto* number = std::get_if<double>(&cell)) {
    csv.number(*number);
  } else if (const auto* whole = std::get_if<std::int64_t>(&cell)) {
    csv.amount(kind == ColumnKind::money ? decimal_amount(*whole, currency) : std::to_string(*whole));
  } else {
    csv.text("");
  }
}

}  // namespace

std::string table_csv(const TableData& table) {
  CsvText csv;
  for (const TableColumn& column : table.columns) csv.text(column.key);
  csv.end_row();
  for (const auto& row : table.rows) {
    for (std::size_t i = 0; i < row.size(); ++i) add_cell(csv, row[i], table.columns[i].kind, table.currency);
    csv.end_row();
  }
  return csv.str();
}

}  // namespace duskwire::formats
