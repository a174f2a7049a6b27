// SPDX-License-Identifier: Apache-2.0
#include "cli/table.hpp"

#include <algorithm>
#include <numeric>

#include "cli/text_width.hpp"

namespace duskwire::cli {
namespace {

constexpr int gap_cells = 2;

std::vector<std::string> cell_lines(const Cell& cell, const Column& column, int cells, const TextStyle& style) {
  if (cell.drawn || display_width(cell.text) <= cells) return {cell.text};
  if (column.cut) return {clip(cell.text, cells, style.glyphs.ellipsis)};
  return wrap(cell.text, cells);
}

}  // namespace

std::vector<int> Table::widths(int room) const {
  std::vector<int> cells;
  for (std::size_t c = 0; c < columns_.size(); ++c) {
    int widest = display_width(columns_[c].head);
    for (const Row& row : rows_) widest = std::max(widest, display_width(row[c].text));
    cells.push_back(widest);
  }
  const int gaps = gap_cells * (static_cast<int>(columns_.size()) - 1);
  int excess = std::accumulate(cells.begin(), cells.end(), gaps) - room;
  // The widest flexible column gives way a cell at a time.
  while (excess > 0) {
    int widest = -1;
    for (std::size_t c = 0; c < columns_.size(); ++c) {
      if (!columns_[c].flexible || cells[c] <= columns_[c].min_cells) continue;
      if (widest < 0 || cells[c] > cells[static_cast<std::size_t>(widest)]) widest = static_cast<int>(c);
    }
    if (widest < 0) break;
    --cells[static_cast<std::size_t>(widest)];
    --excess;
  }
  return cells;
}

std::string Table::text(const TextStyle& style, int indent) const {
  const std::vector<int> cells = widths(style.width - indent);
  Row head;
  for (const Column& column : columns_) head.push_back({column.head, Ink::faint});
  const bool headed = std::any_of(head.begin(), head.end(), [](const Cell& cell) { return !cell.text.empty(); });
  std::string out = headed ? row_text(style, head, cells, indent) : "";
  auto section = sections_.begin();
  for (std::size_t r = 0; r < rows_.size(); ++r) {
    for (; section != sections_.end() && section->first == r; ++section) {
      const std::string margin(static_cast<std::size_t>(indent), ' ');
      out += (r > 0 ? "\n" : "") + margin + paint(style, Ink::strong, section->second) + "\n";
    }
    out += row_text(style, rows_[r], cells, indent);
  }
  return out;
}

std::string Table::row_text(const TextStyle& style, const Row& row, const std::vector<int>& cells, int indent) const {
  std::vector<std::vector<std::string>> parts;
  std::size_t height = 1;
  for (std::size_t c = 0; c < columns_.size(); ++c) {
    parts.push_back(cell_lines(row[c], columns_[c], cells[c], style));
    height = std::max(height, parts.back().size());
  }
  std::string out;
  for (std::size_t i = 0; i < height; ++i) {
    std::string line;
    int padding = indent;  // written only when something follows, so that no line ends in spaces
    for (std::size_t c = 0; c < columns_.size(); ++c) {
      const std::string part = i < parts[c].size() ? parts[c][i] : "";
      const int spare = std::max(0, cells[c] - display_width(part));
      const bool right = columns_[c].align == Align::right;
      if (right) padding += spare;
      if (!part.empty()) {
        line.append(static_cast<std::size_t>(padding), ' ');
        line += row[c].drawn ? part : paint(style, row[c].ink, part);
        padding = 0;
      }
      padding += gap_cells + (right ? 0 : spare);
    }
    while (!line.empty() && line.back() == ' ') line.pop_back();  // a drawing may end in empty cells
    out += line + "\n";
  }
  return out;
}

}  // namespace duskwire::cli
