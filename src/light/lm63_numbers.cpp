// SPDX-License-Identifier: Apache-2.0
#include "light/lm63_numbers.hpp"

#include <fmt/format.h>

namespace duskwire::light {

Lm63Numbers::Lm63Numbers(std::span<const std::string_view> lines, std::size_t first_line, IntensityFindings& findings)
    : lines_(lines), line_(first_line), findings_(findings) {}

std::optional<std::string_view> Lm63Numbers::word() {
  constexpr std::string_view between(" \t,\v\f\0\x1A", 7);
  while (line_ < lines_.size()) {
    const std::string_view line = lines_[line_];
    const std::size_t start = line.find_first_not_of(between, column_);
    if (start != std::string_view::npos) {
      const std::size_t end = std::min(line.find_first_of(between, start), line.size());
      column_ = end;
      line_of_last_ = line_ + 1;
      return line.substr(start, end - start);
    }
    ++line_;
    column_ = 0;
  }
  return std::nullopt;
}

double Lm63Numbers::next(const char* what, double fallback) {
  const std::optional<std::string_view> text = word();
  if (!text) {
    if (!told_end_) {
      findings_.error(lines_.size(), "", what,
                      fmt::format("The file ends before {}. It was cut off: get it anew.", what));
    }
    told_end_ = true;
    return fallback;
  }
  const std::optional<double> number = number_of(*text);
  if (number) return *number;
  findings_.error(line_of_last_, *text, fmt::format("{}, a number", what),
                  fmt::format("{} should be a number here. Look whether a value was lost or added before it.", what));
  return fallback;
}

std::vector<double> Lm63Numbers::list(const char* what, double count) {
  std::vector<double> numbers;
  std::size_t bad = 0;
  std::size_t bad_line = 0;
  std::string_view first_bad;
  while (static_cast<double>(numbers.size()) < count) {
    const std::optional<std::string_view> text = word();
    if (!text) {
      findings_.error(
          lines_.size(), fmt::format("{} of {:.0f}", numbers.size(), count), fmt::format("{:.0f} {}", count, what),
          fmt::format("The file ends after {} of {:.0f} {}. It was cut off, or a count at its head is wrong.",
                      numbers.size(), count, what));
      told_end_ = true;
      break;
    }
    const std::optional<double> number = number_of(*text);
    if (!number && bad++ == 0) {
      first_bad = *text;
      bad_line = line_of_last_;
    }
    numbers.push_back(number.value_or(0));
  }
  if (bad > 0) {
    findings_.error(bad_line, first_bad, "numbers only",
                    fmt::format("Among the {}, {} {} no number{}. Mend the file or get it anew.", what,
                                bad == 1 ? std::string("one word") : fmt::format("{} words", bad),
                                bad == 1 ? "is" : "are", bad == 1 ? "" : "s"));
  }
  return numbers;
}

std::size_t Lm63Numbers::count_rest() {
  std::size_t count = 0;
  while (word()) ++count;
  return count;
}

}  // namespace duskwire::light
