// SPDX-License-Identifier: Apache-2.0
#include "light/intensity_text.hpp"

#include <fmt/format.h>

#include "base/decimal.hpp"
#include "base/utf8.hpp"

namespace duskwire::light {

std::vector<std::string_view> lines_of(std::string_view text) {
  if (text.substr(0, 3) == "\xEF\xBB\xBF") text.remove_prefix(3);
  std::vector<std::string_view> lines;
  while (!text.empty()) {
    const std::size_t end = text.find_first_of("\r\n");
    lines.push_back(text.substr(0, end));
    if (end == std::string_view::npos) break;
    text.remove_prefix(text.substr(end, 2) == "\r\n" ? end + 2 : end + 1);
  }
  return lines;
}

std::string utf8_from_field(std::string_view field) {
  if (well_formed(field) == field) return std::string(field);
  std::string out;
  for (const char c : field) {
    const auto byte = static_cast<unsigned char>(c);
    if (byte < 0x80) {
      out += c;
    } else {
      out += static_cast<char>(0xC0 | (byte >> 6));
      out += static_cast<char>(0x80 | (byte & 0x3F));
    }
  }
  return out;
}

std::string_view trimmed(std::string_view text) {
  constexpr std::string_view blanks(" \t\v\f\0\x1A", 6);  // with the end mark of old disks
  const std::size_t start = text.find_first_not_of(blanks);
  if (start == std::string_view::npos) return {};
  return text.substr(start, text.find_last_not_of(blanks) - start + 1);
}

std::optional<double> number_of(std::string_view field) {
  if (field.substr(0, 1) == "+" && field.substr(1, 1) != "-") field.remove_prefix(1);
  const LeadingNumber number = leading_number(field);
  if (number.length == 0 || number.length != field.size()) return std::nullopt;
  return number.value;
}

void IntensityFindings::add(Severity severity, std::size_t line, std::string_view value, std::string expected,
                            std::string message) {
  std::string pointer = line == 0 ? std::string() : fmt::format("line {}", line);
  problems_.push_back(
      {severity, std::move(pointer), shortened(utf8_from_field(value)), std::move(expected), std::move(message)});
}

void IntensityFindings::error(std::size_t line, std::string_view value, std::string expected, std::string message) {
  add(Severity::error, line, value, std::move(expected), std::move(message));
}

void IntensityFindings::warning(std::size_t line, std::string_view value, std::string expected, std::string message) {
  add(Severity::warning, line, value, std::move(expected), std::move(message));
}

void IntensityFindings::note(std::size_t line, std::string_view value, std::string expected, std::string message) {
  add(Severity::note, line, value, std::move(expected), std::move(message));
}

}  // namespace duskwire::light
