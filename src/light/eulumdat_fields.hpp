// SPDX-License-Identifier: Apache-2.0
// The fields of a EULUMDAT file: one a line, in a fixed order, empty ones included.
#pragma once

#include <span>

#include "light/intensity_text.hpp"

namespace duskwire::light {

class EulumdatFields {
 public:
  EulumdatFields(std::span<const std::string_view> lines, IntensityFindings& findings);

  [[nodiscard]] std::string text();
  // An empty field is 0 where that may be, with a note. A decimal comma is read, with one note for the file.
  double number(const char* what, bool may_be_empty = true);
  // A whole number in range, or nothing with an error.
  std::optional<std::size_t> count(const char* what, std::size_t min, std::size_t max);
  // Precondition: `count` lines are left. The first word that is no number is an error.
  std::vector<double> list(const char* what, std::size_t count);

  [[nodiscard]] std::size_t line() const { return at_; }  // of the field read last, from 1
  [[nodiscard]] std::size_t left() const { return lines_.size() - at_; }
  // Whether a field was asked for behind the end: what is missing was told once.
  [[nodiscard]] bool ended() const { return told_end_; }
  // Lines left that say something.
  [[nodiscard]] std::size_t count_rest() const;

 private:
  std::optional<std::string_view> field(const char* what);
  std::optional<double> parsed(std::string_view field);

  std::span<const std::string_view> lines_;
  std::size_t at_ = 0;
  bool told_end_ = false;
  bool told_comma_ = false;
  IntensityFindings& findings_;
};

}  // namespace duskwire::light
