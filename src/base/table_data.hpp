// SPDX-License-Identifier: Apache-2.0
// A table as a value: what a list holds, apart from how it is written. The same table becomes CSV, a sheet of a
// workbook or a page of a paper.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace duskwire {

enum class ColumnKind : std::uint8_t {
  text = 0,
  number = 1,  // up to three decimals
  count = 2,   // whole
  money = 3,   // minor units of the table's currency
};

struct TableColumn {
  std::string key;   // head in CSV: short, with its unit, no blanks ("cut_m")
  std::string head;  // head for people, with its unit ("Cut, m")
  ColumnKind kind = ColumnKind::text;
};

// Empty, text, a number, or a count or amount.
using TableCell = std::variant<std::monostate, std::string, double, std::int64_t>;

struct TableData {
  std::string id;        // file name without its ending: "materials"
  std::string title;     // for people
  std::string currency;  // ISO 4217, where a column is money
  std::vector<TableColumn> columns;
  std::vector<std::vector<TableCell>> rows;  // each as long as `columns`
  std::string note;                          // a sentence below, such as what is estimated
};

}  // namespace duskwire
