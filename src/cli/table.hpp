// SPDX-License-Identifier: Apache-2.0
// Table: aligned columns that fit a width. Flexible columns give way, the widest first: their text wraps inside the
// cell or is cut.
#pragma once

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include "cli/text_style.hpp"

namespace duskwire::cli {

enum class Align { left, right };

struct Column {
  std::string head;
  Align align = Align::left;
  bool flexible = false;  // may be made narrower than its text, down to `min_cells`
  int min_cells = 8;
  bool cut = false;  // cut what does not fit instead of wrapping it
};

struct Cell {
  std::string text;
  Ink ink = Ink::plain;
  bool drawn = false;  // text already holds its colours: never wrapped
};

using Row = std::vector<Cell>;

class Table {
 public:
  explicit Table(std::vector<Column> columns) : columns_(std::move(columns)) {}

  // Precondition: as many cells as columns.
  void add(Row row) { rows_.push_back(std::move(row)); }
  // A line of its own across the columns, with an empty line before it unless it comes first.
  void add_section(std::string text) { sections_.emplace_back(rows_.size(), std::move(text)); }
  [[nodiscard]] bool empty() const { return rows_.empty(); }

  // Lines with line ends, each indented by `indent` cells, no trailing spaces.
  [[nodiscard]] std::string text(const TextStyle& style, int indent = 2) const;

 private:
  [[nodiscard]] std::vector<int> widths(int room) const;
  [[nodiscard]] std::string row_text(const TextStyle& style, const Row& row, const std::vector<int>& cells,
                                     int indent) const;

  std::vector<Column> columns_;
  std::vector<Row> rows_;
  std::vector<std::pair<std::size_t, std::string>> sections_;  // before which row, and the line
};

}  // namespace duskwire::cli
