// SPDX-License-Identifier: Apache-2.0
#include "formats/expectation.hpp"

#include <fmt/format.h>

#include "formats/context.hpp"
#include "formats/text_forms.hpp"

namespace duskwire::formats {

std::string words_of(const Number& rule, bool whole) {
  const char* noun = whole ? "a whole number" : "a number";
  const std::string unit = *rule.unit == '\0' ? "" : fmt::format(" {}", rule.unit);
  if (rule.above_min) return fmt::format("{} above {}, to {}{}", noun, rule.min, rule.max, unit);
  return fmt::format("{} from {} to {}{}", noun, rule.min, rule.max, unit);
}

std::string words_of(const Text& rule) {
  switch (rule.form) {
    case Form::plain:
      return fmt::format("text of at most {} characters", rule.max_chars);
    case Form::name:
      return fmt::format("an id of 1 to {} characters without spaces", rule.max_chars);
    default:
      return words_for(rule.form);
  }
}

std::string words_of(const std::vector<std::string>& names) { return fmt::format("one of {}", fmt::join(names, ", ")); }

std::string words_of(const Ref& rule) { return fmt::format("the id of {}", kind_words(rule)); }

std::string words_of(const Numbers& rule) {
  const std::string count = rule.min_count == rule.max_count ? fmt::format("{}", rule.max_count)
                                                             : fmt::format("{} to {}", rule.min_count, rule.max_count);
  return fmt::format("a list of {} numbers, each {}{}", count, words_of(rule.each),
                     rule.ascending ? ", ascending" : "");
}

std::string words_of(const Places& rule) {
  return fmt::format("a list of {}{} to {} points [x, y] in m", rule.may_be_empty ? "none or " : "", rule.min_count,
                     most_points);
}

std::string words_of(const Pixel&) {
  return fmt::format("a place [x, y] in px on the picture, each number from {} to {}", -farthest_px, farthest_px);
}

std::string words_of(const Pixels& rule) {
  const std::string count = rule.min_count == rule.max_count ? fmt::format("{}", rule.max_count)
                                                             : fmt::format("{} to {}", rule.min_count, rule.max_count);
  return fmt::format("a list of {}{} places [x, y] in px", rule.may_be_empty ? "none or " : "", count);
}

std::string words_of(const Way&) { return "a direction [x, y, z], each number from -1 to 1"; }

std::string place_words(std::size_t coordinates) {
  return fmt::format("a point {} in m, each number from {} to {}", coordinates == 3 ? "[x, y, z]" : "[x, y]",
                     -farthest_m, farthest_m);
}

std::string list_words(std::size_t max_count) { return fmt::format("a list of at most {} entries", max_count); }

}  // namespace duskwire::formats
