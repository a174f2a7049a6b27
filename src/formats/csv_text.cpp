// SPDX-License-Identifier: Apache-2.0
#include "formats/csv_text.hpp"

#include <fmt/format.h>

#include <cmath>

namespace duskwire::formats {
namespace {

bool looks_like_a_formula(std::string_view cell) {
  return !cell.empty() && std::string_view("=+-@\t\r").find(cell.front()) != std::string_view::npos;
}

std::string trimmed(double value) {
  std::string text = fmt::format("{:.3f}", value);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text == "-0" ? "0" : text;
}

}  // namespace

void CsvText::separate() {
  if (row_begun_) out_ += ',';
  row_begun_ = true;
}

CsvText& CsvText::text(std::string_view cell) {
  separate();
  const std::string safe = (looks_like_a_formula(cell) ? "'" : "") + std::string(cell);
  if (safe.find_first_of(",\"\r\n") == std::string::npos) {
    out_ += safe;
    return *this;
  }
  out_ += '"';
  for (const char c : safe) {
    if (c == '"') out_ += '"';
    out_ += c;
  }
  out_ += '"';
  return *this;
}

CsvText& CsvText::number(double value) {
  separate();
  if (std::isfinite(value)) out_ += trimmed(value);
  return *this;
}

CsvText& CsvText::count(std::size_t value) {
  separate();
  out_ += std::to_string(value);
  return *this;
}

CsvText& CsvText::amount(std::string_view decimal) {
  separate();
  out_ += decimal;
  return *this;
}

void CsvText::end_row() {
  out_ += "\r\n";
  row_begun_ = false;
}

}  // namespace duskwire::formats
