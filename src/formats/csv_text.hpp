// SPDX-License-Identifier: Apache-2.0
// Writes CSV as RFC 4180 has it: commas, CRLF, quotes where a cell needs them. A text cell that a spreadsheet would
// take for a formula gets a leading apostrophe, so that opening a list can run nothing.
#pragma once

#include <string>
#include <string_view>

namespace duskwire::formats {

class CsvText {
 public:
  CsvText& text(std::string_view cell);
  CsvText& number(double value);  // up to three decimals, a decimal point in every locale; empty if not finite
  CsvText& count(std::size_t value);
  CsvText& amount(std::string_view decimal);  // digits made by the program, as they are
  void end_row();

  [[nodiscard]] const std::string& str() const { return out_; }

 private:
  void separate();

  std::string out_;
  bool row_begun_ = false;
};

}  // namespace duskwire::formats
