// SPDX-License-Identifier: Apache-2.0
// Reads CSV as RFC 4180 has it, and what spreadsheets make of it: UTF-8 with or without a byte order mark, lines ended
// by CRLF, LF or CR, cells in quotes, separated by commas (or by semicolons or tabs, as the first line has it).
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "base/problem.hpp"

namespace duskwire::formats {

struct CsvRow {
  std::size_t line = 0;  // where it begins, counted from 1
  std::vector<std::string> cells;
};

struct CsvTable {
  char separator = ',';
  std::vector<CsvRow> rows;  // blank lines left out
  Problems problems;         // pointers: "line 3, column 2"
};

[[nodiscard]] CsvTable read_csv(std::string_view text);

// "line 3, column 2"; cells of a row are columns, counted from 1.
[[nodiscard]] std::string csv_place(std::size_t line, std::size_t column);

}  // namespace duskwire::formats
