// SPDX-License-Identifier: Apache-2.0
// libxlsxwriter writes files only: it is given one in a folder of its own, which goes when the bytes are read.
#include "office/workbook.hpp"

#include <fmt/format.h>
#include <xlsxwriter.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <set>
#include <system_error>

#include "base/currency.hpp"

namespace duskwire::office {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t longest_sheet_name = 31;      // of a spreadsheet, in UTF-16 units
constexpr std::size_t longest_cell_bytes = 32'000;  // a cell holds 32,767 characters
constexpr std::uint32_t first_head_row = 2;         // title, a free row, head

class ScratchFolder {
 public:
  ScratchFolder() {
    std::error_code ignored;
    std::string pattern = (fs::temp_directory_path(ignored) / "duskwire-workbook-XXXXXX").string();
    if (mkdtemp(pattern.data()) != nullptr) path_ = pattern;
  }
  ~ScratchFolder() {
    std::error_code ignored;
    if (!path_.empty()) fs::remove_all(path_, ignored);
  }
  ScratchFolder(const ScratchFolder&) = delete;
  ScratchFolder& operator=(const ScratchFolder&) = delete;
  [[nodiscard]] const fs::path& path() const { return path_; }

 private:
  fs::path path_;
};

// At most so many bytes, whole characters.
std::string shortened(const std::string& text, std::size_t most_bytes) {
  if (text.size() <= most_bytes) return text;
  std::size_t end = most_bytes;
  while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xc0) == 0x80) --end;
  return text.substr(0, end);
}

// What a spreadsheet takes as a sheet's name, each one once.
std::string sheet_name(const std::string& title, std::set<std::string>& taken) {
  std::string name;
  for (const char c : title) name += std::string_view("[]:*?/\\'").find(c) == std::string_view::npos ? c : ' ';
  name = shortened(name, longest_sheet_name);
  if (name.empty()) name = "Sheet";
  std::string candidate = name;
  const auto folded = [](std::string text) {
    std::transform(text.begin(), text.end(), text.begin(),
                   [](unsigned char c) { return c < 128 ? std::tolower(c) : c; });
    return text;
  };
  for (int n = 2; !taken.insert(folded(candidate)).second; ++n) {
    const std::string tail = fmt::format(" {}", n);
    candidate = shortened(name, longest_sheet_name - tail.size()) + tail;
  }
  return candidate;
}

class BookWriter {
 public:
  BookWriter(lxw_workbook* book, const TableData& table, std::set<std::string>& taken) : book_(book), table_(table) {
    sheet_ = workbook_add_worksheet(book_, sheet_name(table.title, taken).c_str());
    title_ = workbook_add_format(book_);
    format_set_bold(title_);
    format_set_font_size(title_, 14);
    head_ = workbook_add_format(book_);
    format_set_bold(head_);
    format_set_text_wrap(head_);
    format_set_align(head_, LXW_ALIGN_VERTICAL_TOP);
    format_set_bottom(head_, LXW_BORDER_THIN);
    number_ = workbook_add_format(book_);
    format_set_num_format(number_, "0.###");
    whole_ = workbook_add_format(book_);
    format_set_num_format(whole_, "0");
    money_ = workbook_add_format(book_);
    const int digits = minor_digits(table.currency);
    format_set_num_format(money_, digits == 0 ? "#,##0" : digits == 2 ? "#,##0.00" : "#,##0.000");
    scale_ = std::pow(10.0, digits);
    text_ = workbook_add_format(book_);
    format_set_num_format(text_, "@");
  }

  void write() {
    worksheet_write_string(sheet_, 0, 0, table_.title.c_str(), title_);
    const auto last_column = static_cast<lxw_col_t>(table_.columns.empty() ? 0 : table_.columns.size() - 1);
    for (std::size_t c = 0; c < table_.columns.size(); ++c) head_cell(c);
    std::uint32_t row = first_head_row + 1;
    for (const auto& cells : table_.rows) {
      for (std::size_t c = 0; c < cells.size(); ++c) cell(row, static_cast<lxw_col_t>(c), cells[c]);
      ++row;
    }
    if (!table_.rows.empty()) worksheet_autofilter(sheet_, first_head_row, 0, row - 1, last_column);
    worksheet_freeze_panes(sheet_, first_head_row + 1, 0);
    if (!table_.note.empty()) worksheet_write_string(sheet_, row + 1, 0, table_.note.c_str(), nullptr);
    worksheet_repeat_rows(sheet_, first_head_row, first_head_row);
    worksheet_set_landscape(sheet_);
    worksheet_fit_to_pages(sheet_, 1, 0);
  }

 private:
  // As wide as what is in it, within reason.
  void head_cell(std::size_t c) {
    const auto column = static_cast<lxw_col_t>(c);
    std::size_t width = 9;
    for (const auto& cells : table_.rows) {
      const auto* text = c < cells.size() ? std::get_if<std::string>(&cells[c]) : nullptr;
      if (text != nullptr) width = std::max(width, std::min<std::size_t>(text->size(), 48));
    }
    worksheet_set_column(sheet_, column, column, static_cast<double>(width) + 2, nullptr);
    worksheet_write_string(sheet_, first_head_row, column, table_.columns[c].head.c_str(), head_);
  }

  void cell(lxw_row_t row, lxw_col_t column, const TableCell& value) {
    if (const auto* text = std::get_if<std::string>(&value)) {
      worksheet_write_string(sheet_, row, column, shortened(*text, longest_cell_bytes).c_str(), text_);
    } else if (const auto* number = std::get_if<double>(&value)) {
      if (std::isfinite(*number)) worksheet_write_number(sheet_, row, column, *number, number_);
    } else if (const auto* whole = std::get_if<std::int64_t>(&value)) {
      const bool money = table_.columns[column].kind == ColumnKind::money;
      worksheet_write_number(sheet_, row, column, static_cast<double>(*whole) / (money ? scale_ : 1),
                             money ? money_ : whole_);
    }
  }

  lxw_workbook* book_;
  const TableData& table_;
  lxw_worksheet* sheet_ = nullptr;
  lxw_format* title_ = nullptr;
  lxw_format* head_ = nullptr;
  lxw_format* number_ = nullptr;
  lxw_format* whole_ = nullptr;
  lxw_format* money_ = nullptr;
  lxw_format* text_ = nullptr;
  double scale_ = 1;
};

std::string read_file(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

}  // namespace

Result<std::string> workbook(const std::vector<TableData>& tables, const WorkbookNote& note) {
  if (tables.empty()) return Error{ErrorCode::invalid, "A workbook needs at least one table."};
  const ScratchFolder scratch;
  if (scratch.path().empty()) {
    return Error{ErrorCode::unavailable,
                 "No folder for temporary files can be made. Set TMPDIR to one that can be written."};
  }
  const fs::path file = scratch.path() / "book.xlsx";
  std::string folder = scratch.path().string();
  lxw_workbook_options options{};
  options.tmpdir = folder.data();
  lxw_workbook* book = workbook_new_opt(file.c_str(), &options);
  if (book == nullptr) return Error{ErrorCode::unavailable, "The workbook cannot be begun: too little memory."};
  std::string title = shortened(note.title, 255);
  lxw_doc_properties properties{};
  properties.title = title.data();
  properties.created = static_cast<std::time_t>(note.created_utc_s);
  workbook_set_properties(book, &properties);
  std::set<std::string> taken;
  for (const TableData& table : tables) BookWriter(book, table, taken).write();
  if (const lxw_error fault = workbook_close(book); fault != LXW_NO_ERROR) {
    return Error{ErrorCode::unavailable, fmt::format("The workbook cannot be written: {}.", lxw_strerror(fault))};
  }
  std::string bytes = read_file(file);
  if (bytes.empty()) return Error{ErrorCode::unavailable, "The workbook cannot be read back from its temporary file."};
  return bytes;
}

}  // namespace duskwire::office
