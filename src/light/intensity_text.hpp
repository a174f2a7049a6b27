// SPDX-License-Identifier: Apache-2.0
// The text of an intensity file in lines, and the list of what was found in it. Used by both readers.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/problem.hpp"

namespace duskwire::light {

// A longer text is refused: the largest tables in use take some hundred kilobytes (common practice, no source).
inline constexpr std::size_t intensity_text_limit_bytes = 4'000'000;

// Lines without their ends (CR LF, LF or CR) and without a byte order mark.
[[nodiscard]] std::vector<std::string_view> lines_of(std::string_view text);

// As UTF-8: text that is not is taken for Latin-1.
[[nodiscard]] std::string utf8_from_field(std::string_view field);

[[nodiscard]] std::string_view trimmed(std::string_view text);

// The whole field as a finite number; a plus sign may lead. Nothing for anything else.
[[nodiscard]] std::optional<double> number_of(std::string_view field);

// Findings with their line. Many of one kind would hide the others, so each reader stops a list at its first break.
class IntensityFindings {
 public:
  void error(std::size_t line, std::string_view value, std::string expected, std::string message);
  void warning(std::size_t line, std::string_view value, std::string expected, std::string message);
  void note(std::size_t line, std::string_view value, std::string expected, std::string message);
  [[nodiscard]] bool has_errors() const { return duskwire::has_errors(problems_); }
  [[nodiscard]] Problems take() { return std::move(problems_); }

 private:
  void add(Severity severity, std::size_t line, std::string_view value, std::string expected, std::string message);
  Problems problems_;
};

}  // namespace duskwire::light
