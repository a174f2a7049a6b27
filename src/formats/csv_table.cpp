// SPDX-License-Identifier: Apache-2.0
#include "formats/csv_table.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/utf8.hpp"

namespace duskwire::formats {
namespace {

constexpr std::size_t most_bytes = 16u << 20u;
constexpr std::size_t most_rows = 50'000;
constexpr std::size_t most_cells = 200;
constexpr std::size_t most_problems = 1000;
constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

char separator_of(std::string_view text) {
  const std::string_view first = text.substr(0, text.find_first_of("\r\n"));
  char best = ',';
  for (const char candidate : {';', '\t'}) {
    if (std::count(first.begin(), first.end(), candidate) > std::count(first.begin(), first.end(), best)) {
      best = candidate;
    }
  }
  return best;
}

class CsvReader {
 public:
  CsvReader(std::string_view text, CsvTable& table) : text_(text), table_(table) {}

  void read() {
    while (at_ < text_.size() && table_.rows.size() <= most_rows) read_row();
    if (table_.rows.size() > most_rows) {
      table_.rows.resize(most_rows);
      report(line_, 1, "", fmt::format("at most {} lines", most_rows), "The table is longer than any list of lamps.");
    }
  }

 private:
  [[nodiscard]] bool at_end_of_line() const { return at_ >= text_.size() || text_[at_] == '\n' || text_[at_] == '\r'; }

  void read_row() {
    CsvRow row;
    row.line = line_;
    for (;;) {
      std::string cell;
      const bool quoted = at_ < text_.size() && text_[at_] == '"';
      if (quoted) read_quoted(cell, row.cells.size() + 1);
      read_plain(cell, quoted, row.cells.size() + 1);
      if (row.cells.size() < most_cells) row.cells.push_back(std::move(cell));
      if (at_end_of_line()) break;
      ++at_;  // the separator
    }
    end_line();
    const bool blank = std::all_of(row.cells.begin(), row.cells.end(), [](const std::string& cell) {
      return cell.find_first_not_of(" \t") == std::string::npos;
    });
    if (!blank) table_.rows.push_back(std::move(row));
  }

  void read_quoted(std::string& cell, std::size_t column) {
    const std::size_t line = line_;
    ++at_;
    for (; at_ < text_.size(); ++at_) {
      if (text_[at_] == '"') {
        if (at_ + 1 >= text_.size() || text_[at_ + 1] != '"') {
          ++at_;
          return;
        }
        ++at_;  // a doubled quote stands for one
      }
      if (text_[at_] == '\n' || (text_[at_] == '\r' && (at_ + 1 >= text_.size() || text_[at_ + 1] != '\n'))) ++line_;
      cell += text_[at_];
    }
    report(line, column, shortened(cell), "a closing quote",
           fmt::format("The quote that opens column {} of line {} is never closed.", column, line));
  }

  // The rest of a cell; nothing but space may follow a closing quote.
  void read_plain(std::string& cell, bool quoted, std::size_t column) {
    const std::size_t begin = at_;
    while (!at_end_of_line() && text_[at_] != table_.separator) ++at_;
    const std::string_view rest = text_.substr(begin, at_ - begin);
    if (quoted && rest.find_first_not_of(" \t") != std::string_view::npos) {
      report(line_, column, shortened(rest), "a separator after the closing quote",
             fmt::format("Text follows the closing quote of column {} in line {}; a quote within a cell is written "
                         "twice.",
                         column, line_));
    }
    if (!quoted) cell += rest;
    if (well_formed(cell) != cell) {
      report(line_, column, shortened(cell), "UTF-8 text",
             fmt::format("Column {} of line {} is not UTF-8: save the table as \"CSV UTF-8\".", column, line_));
      cell = well_formed(cell);
    }
  }

  void end_line() {
    if (at_ >= text_.size()) return;
    if (text_[at_] == '\r' && at_ + 1 < text_.size() && text_[at_ + 1] == '\n') ++at_;
    ++at_;
    ++line_;
  }

  void report(std::size_t line, std::size_t column, std::string value, std::string expected, std::string message) {
    if (table_.problems.size() >= most_problems) return;
    table_.problems.push_back(
        {Severity::error, csv_place(line, column), std::move(value), std::move(expected), std::move(message)});
  }

  std::string_view text_;
  CsvTable& table_;
  std::size_t at_ = 0;
  std::size_t line_ = 1;
};

}  // namespace

std::string csv_place(std::size_t line, std::size_t column) { return fmt::format("line {}, column {}", line, column); }

CsvTable read_csv(std::string_view text) {
  CsvTable table;
  if (text.starts_with(byte_order_mark)) text.remove_prefix(byte_order_mark.size());
  if (text.size() > most_bytes) {
    table.problems.push_back({Severity::error, "", fmt::format("{} bytes", text.size()),
                              fmt::format("at most {} bytes", most_bytes),
                              "The table is longer than any list of lamps."});
    return table;
  }
  table.separator = separator_of(text);
  CsvReader(text, table).read();
  return table;
}

}  // namespace duskwire::formats
