// SPDX-License-Identifier: Apache-2.0
#include "light/eulumdat_fields.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace duskwire::light {

EulumdatFields::EulumdatFields(std::span<const std::string_view> lines, IntensityFindings& findings)
    : lines_(lines), findings_(findings) {
  while (!lines_.empty() && trimmed(lines_.back()).empty()) lines_ = lines_.first(lines_.size() - 1);
}

std::optional<std::string_view> EulumdatFields::field(const char* what) {
  if (at_ < lines_.size()) return trimmed(lines_[at_++]);
  if (!told_end_) {
    findings_.error(lines_.size(), "", what,
                    fmt::format("The file ends before {}. It was cut off: get it anew.", what));
  }
  told_end_ = true;
  return std::nullopt;
}

std::optional<double> EulumdatFields::parsed(std::string_view field) {
  if (field.find(',') == std::string_view::npos) return number_of(field);
  std::string with_point(field);
  std::replace(with_point.begin(), with_point.end(), ',', '.');
  const std::optional<double> number = number_of(with_point);
  if (number && !told_comma_) {
    findings_.note(at_, field, "a decimal point", "Decimal commas are read as decimal points.");
    told_comma_ = true;
  }
  return number;
}

std::string EulumdatFields::text() {
  const std::optional<std::string_view> field = this->field("a line of text");
  return field ? utf8_from_field(*field) : std::string();
}

double EulumdatFields::number(const char* what, bool may_be_empty) {
  const std::optional<std::string_view> text = field(what);
  if (!text) return 0;
  if (text->empty() && may_be_empty) {
    findings_.note(at_, "", what, fmt::format("The line for {} is empty. It is taken as 0.", what));
    return 0;
  }
  const std::optional<double> number = parsed(*text);
  if (number) return *number;
  findings_.error(at_, *text, fmt::format("{}, a number", what),
                  fmt::format("This line should hold {}. Look whether a line was lost or added before it.", what));
  return 0;
}

std::optional<std::size_t> EulumdatFields::count(const char* what, std::size_t min, std::size_t max) {
  const std::optional<std::string_view> text = field(what);
  if (!text) return std::nullopt;
  const std::optional<double> number = parsed(*text);
  if (number && *number == std::floor(*number) && *number >= static_cast<double>(min) &&
      *number <= static_cast<double>(max)) {
    return static_cast<std::size_t>(*number);
  }
  findings_.error(at_, *text, fmt::format("a whole number, {} to {}", min, max),
                  fmt::format("This line should hold {}. Look whether a line was lost or added before it.", what));
  return std::nullopt;
}

std::vector<double> EulumdatFields::list(const char* what, std::size_t count) {
  std::vector<double> numbers;
  numbers.reserve(count);
  bool told = false;
  for (std::size_t i = 0; i < count; ++i) {
    const std::string_view text = trimmed(lines_[at_++]);
    const std::optional<double> number = parsed(text);
    if (!number && !told) {
      findings_.error(at_, text, "a number",
                      fmt::format("Among the {}, number {} is none. Lines were lost or added.", what, i + 1));
      told = true;
    }
    numbers.push_back(number.value_or(0));
  }
  return numbers;
}

std::size_t EulumdatFields::count_rest() const {
  return static_cast<std::size_t>(std::count_if(lines_.begin() + static_cast<std::ptrdiff_t>(at_), lines_.end(),
                                                [](std::string_view line) { return !trimmed(line).empty(); }));
}

}  // namespace duskwire::light
