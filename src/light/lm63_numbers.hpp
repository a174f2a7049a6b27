// SPDX-License-Identifier: Apache-2.0
// The numbers behind the TILT line of an LM-63 file, one after the other: they wrap freely, with blanks, commas and
// line ends between them.
#pragma once

#include <span>

#include "light/intensity_text.hpp"

namespace duskwire::light {

class Lm63Numbers {
 public:
  Lm63Numbers(std::span<const std::string_view> lines, std::size_t first_line, IntensityFindings& findings);

  // The next number; `what` names it in the finding where there is none (then `fallback`).
  double next(const char* what, double fallback);

  // The next numbers, as many as there should be; fewer, with a finding, where the text ends before. Nothing is
  // reserved for a count that the text could not hold.
  std::vector<double> list(const char* what, double count);

  // Line of the number read last.
  [[nodiscard]] std::size_t line() const { return line_of_last_; }
  // How many words are left.
  [[nodiscard]] std::size_t count_rest();

 private:
  std::optional<std::string_view> word();

  std::span<const std::string_view> lines_;
  std::size_t line_;
  std::size_t column_ = 0;
  std::size_t line_of_last_ = 0;
  bool told_end_ = false;
  IntensityFindings& findings_;
};

}  // namespace duskwire::light
