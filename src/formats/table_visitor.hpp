// SPDX-License-Identifier: Apache-2.0
// The visitors that make Markdown tables of shapes: one row per field.
#pragma once

#include <fmt/format.h>

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

#include "formats/context.hpp"
#include "formats/enum_names.hpp"
#include "formats/expectation.hpp"
#include "formats/shape.hpp"
#include "formats/type_names.hpp"
#include "geometry/pixel.hpp"
#include "geometry/point.hpp"
#include "geometry/vec3.hpp"

namespace duskwire::formats {

// "[luminaire item](#luminaire-item)"
template <class T>
std::string linked(Of<T> of) {
  std::string words = type_name(of);
  std::string anchor = words;
  for (char& c : words) c = c == '_' ? ' ' : c;
  for (char& c : anchor) c = c == '_' ? '-' : c;
  return fmt::format("[{}](#{})", words, anchor);
}

// Unit of a key by its end, as docs/decisions has it.
inline std::string unit_of_key(std::string_view key) {
  static constexpr std::pair<std::string_view, std::string_view> units[] = {{"_ohm_per_m_20c", "ohm/m"},
                                                                            {"_va", "VA"},
                                                                            {"_v", "V"},
                                                                            {"_a", "A"},
                                                                            {"_lm_w", "lm/W"},
                                                                            {"_w", "W"},
                                                                            {"_lm", "lm"},
                                                                            {"_cd", "cd"},
                                                                            {"_pct", "%"},
                                                                            {"_deg", "deg"},
                                                                            {"_m", "m"},
                                                                            {"_c", "C"},
                                                                            {"_lx", "lx"},
                                                                            {"_lm", "lm"},
                                                                            {"_cd", "cd"},
                                                                            {"_cd_m2", "cd/m2"},
                                                                            {"_deg", "deg"},
                                                                            {"_min", "min"},
                                                                            {"_minor", "minor units"}};
  for (const auto& [end, unit] : units) {
    if (key.ends_with(end)) return std::string(unit);
  }
  return "";
}

// Type and allowed values of a field.
struct FieldWords {
  std::string type;
  std::string unit;
  std::string allowed;
};

inline std::string range_words(const Number& rule) {
  return fmt::format("{}{} to {}", rule.above_min ? "above " : "", rule.min, rule.max);
}

template <class M>
FieldWords words_for_field(const M&, const Number& rule) {
  return {std::is_integral_v<inner_t<M>> ? "whole number" : "number", rule.unit, range_words(rule)};
}
template <class M>
FieldWords words_for_field(const M&, const OneOf&) {
  const auto list = names(Of<inner_t<M>>{});
  return {"name", "", fmt::format("{}", fmt::join(list, ", "))};
}
template <class M>
FieldWords words_for_field(const M&, const Place&) {
  constexpr bool is_space = std::is_same_v<inner_t<M>, geometry::Point3>;
  return {is_space ? "point [x, y, z]" : "point [x, y]", "m", "within 100 km"};
}
inline FieldWords words_for_field(const geometry::Polyline&, const Places& rule) {
  return {"list of points [x, y]", "m",
          fmt::format("{}{} or more", rule.may_be_empty ? "none or " : "", rule.min_count)};
}
template <class M>
FieldWords words_for_field(const M&, const Pixel&) {
  return {"place [x, y]", "px", "from the top left corner"};
}
inline FieldWords words_for_field(const geometry::PixelOutline&, const Pixels& rule) {
  const bool is_fixed = rule.min_count == rule.max_count;
  return {"list of places [x, y]", "px",
          fmt::format("{}{}{}", rule.may_be_empty ? "none or " : "", rule.min_count, is_fixed ? "" : " or more")};
}
inline FieldWords words_for_field(const geometry::Vec3&, const Way&) {
  return {"direction [x, y, z]", "", "-1 to 1 each, not all 0"};
}
template <class M>
FieldWords words_for_field(const M&, const Flag&) {
  return {"true, false", "", ""};
}
template <class M>
FieldWords words_for_field(const std::string&, const Kept<M>&) {
  if constexpr (std::is_void_v<M>) {
    return {"object", "", ""};
  } else {
    return {linked(Of<M>{}), "", ""};
  }
}
inline FieldWords words_for_field(const std::string&, const Text& rule) {
  const bool plain = rule.form == Form::plain;
  return {"text", "", plain ? fmt::format("up to {} characters", rule.max_chars) : words_of(rule)};
}
inline FieldWords words_for_field(const std::string&, const Choice& rule) {
  return {"name", "", fmt::format("{}", fmt::join(rule.begin, rule.end, ", "))};
}
inline FieldWords words_for_field(const std::string&, const Id&) {
  return {"id", "", fmt::format("1 to {} characters without spaces, used once", longest_id)};
}
inline FieldWords words_for_field(const std::string&, const Ref& rule) { return {"id", "", "of " + kind_words(rule)}; }
inline FieldWords words_for_field(const std::vector<double>&, const Numbers& rule) {
  const std::string count = rule.min_count == rule.max_count ? fmt::format("{}", rule.max_count)
                                                             : fmt::format("{} to {}", rule.min_count, rule.max_count);
  return {"list of numbers", rule.each.unit,
          fmt::format("{} of them, each{}{}", count, range_words(rule.each), rule.ascending ? ", ascending" : "")};
}
inline FieldWords words_for_field(const std::vector<std::string>&, const Texts& rule) {
  return {"list of texts", "", fmt::format("up to {}, each {}", rule.max_count, words_of(rule.each))};
}
inline FieldWords words_for_field(const std::vector<std::string>&, const Refs& rule) {
  return {"list of ids", "", fmt::format("up to {}, each of {}", rule.max_count, kind_words(rule.each))};
}
inline FieldWords words_for_field(const std::map<std::string, double>&, const NumberMap&) {
  return {"numbers by name", "", ""};
}
template <class M>
FieldWords words_for_field(const std::map<std::string, M>&, const NumberMap&) {
  return {"tables by name", "", ""};
}
template <class M>
FieldWords words_for_field(const M&, const Part&) {
  return {linked(Of<inner_t<M>>{}), "", ""};
}
template <class M>
FieldWords words_for_field(const std::vector<M>&, const List& rule) {
  return {"list of " + linked(Of<M>{}), "", fmt::format("up to {}", rule.max_count)};
}

template <class T>
class TableVisitor {
 public:
  template <class M, class Rule>
  void field(const char* key, M T::*member, const Rule& rule, Need need, const char* meaning) {
    const FieldWords words = words_for_field(blank_.*member, rule);
    const std::string must = need == required ? "yes" : default_words(blank_.*member);
    rows_ +=
        fmt::format("| `{}` | {} | {} | {} | {} | {} |\n", key, words.type, words.unit, words.allowed, must, meaning);
  }

  [[nodiscard]] std::string table() const {
    return "| name | type | unit | allowed | required, or default | meaning |\n|---|---|---|---|---|---|\n" + rows_;
  }

 private:
  template <class M>
  static std::string default_words(const M& blank) {
    if constexpr (std::is_same_v<M, bool>) return blank ? "true" : "false";
    if constexpr (std::is_arithmetic_v<M>) return fmt::format("{}", blank);
    if constexpr (std::is_enum_v<M>) return names(Of<M>{}).at(static_cast<std::size_t>(blank));
    if constexpr (std::is_same_v<M, std::string>) return blank.empty() ? "absent" : blank;
    return "absent";
  }

  const T blank_{};
  std::string rows_;
};

template <class T>
class ResultTable {
 public:
  template <class M>
  void result(const char* key, M T::*, const char* meaning) {
    rows_ += fmt::format("| `{}` | {} | {} | {} |\n", key, type_words_of<M>(), unit_of_key(key), meaning);
  }

  [[nodiscard]] std::string table() const { return "| name | type | unit | meaning |\n|---|---|---|---|\n" + rows_; }

 private:
  template <class M>
  static std::string type_words_of() {
    using I = inner_t<M>;
    std::string words;
    if constexpr (std::is_same_v<I, bool>) {
      words = "true, false";
    } else if constexpr (std::is_arithmetic_v<I>) {
      words = "number";
    } else if constexpr (std::is_same_v<I, std::string>) {
      words = "text";
    } else if constexpr (std::is_enum_v<I>) {
      const auto list = names(Of<I>{});
      words = fmt::format("{}", fmt::join(list, ", "));
    } else if constexpr (std::is_same_v<I, std::vector<double>>) {
      words = "list of numbers";
    } else if constexpr (requires { typename I::value_type; }) {
      words = "list";
    } else {
      words = "object";
    }
    return std::is_same_v<I, M> ? words : words + ", may be absent";
  }

  std::string rows_;
};

}  // namespace duskwire::formats
