// SPDX-License-Identifier: Apache-2.0
#include "formats/read_value.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "base/nearest.hpp"
#include "base/utf8.hpp"
#include "formats/expectation.hpp"
#include "formats/text_forms.hpp"

namespace duskwire::formats {
namespace {

// Whole numbers up to here are exact in a double.
constexpr double largest_whole = 9'007'199'254'740'992.0;

std::string with_meaning(const FieldInfo& info) { return fmt::format(" ({})", info.meaning); }

// What often is behind a value of the wrong type.
std::string hint(const Json& value, bool number_meant) {
  if (value.is_null()) return " Leave the key out where there is no value.";
  if (!value.is_string()) return "";
  const std::string& text = value.get_ref<const std::string&>();
  if (text == "true" || text == "false") return " Write it without quotes.";
  if (!number_meant) return "";
  char* end = nullptr;
  std::strtod(text.c_str(), &end);
  if (end == text.c_str()) return "";
  return *end == '\0' ? " Write the number without quotes." : " Write the bare number, in the unit of the key.";
}

bool wrong_type(Context& context, const Json& value, const std::string& expected, const FieldInfo& info,
                bool number_meant = false) {
  context.error(value, expected,
                fmt::format("\"{}\" is {}, but takes {}{}.{}", info.key, type_words(value), expected,
                            with_meaning(info), hint(value, number_meant)));
  return false;
}

void wrong_value(Context& context, const Json& value, const std::string& expected, const FieldInfo& info) {
  context.error(value, expected,
                fmt::format("\"{}\" is {}, but takes {}{}.", info.key, shown(value), expected, with_meaning(info)));
}

bool in_range(double value, const Number& rule) {
  return std::isfinite(value) && value <= rule.max && (rule.above_min ? value > rule.min : value >= rule.min);
}

template <class Whole>
bool read_whole(Context& context, const Json& value, Whole& out, const Number& rule, const FieldInfo& info) {
  if (!value.is_number()) return wrong_type(context, value, words_of(rule, true), info, true);
  const double number = value.get<double>();
  const bool whole = number == std::floor(number) && std::abs(number) <= largest_whole;
  if (!whole || !in_range(number, rule)) {
    wrong_value(context, value, words_of(rule, true), info);
    return false;
  }
  out = static_cast<Whole>(number);
  return true;
}

// `expected` is the rule in whose words a wrong value is told: a reference is more to a person than its form.
template <class Rule>
bool read_text(Context& context, const Json& value, std::string& out, const Text& rule, const Rule& expected,
               const FieldInfo& info) {
  if (!value.is_string()) return wrong_type(context, value, words_of(expected), info);
  out = value.get_ref<const std::string&>();
  if (out.empty() && info.need == optional) return true;
  const bool fits = count_chars(out) <= rule.max_chars && has_form(out, rule.form);
  if (!fits) wrong_value(context, value, words_of(expected), info);
  return true;
}

// Numbers of a fixed count, each at most `most` from zero.
bool read_tuple(Context& context, const Json& value, double* const* numbers, std::size_t count, double most,
                const std::string& expected, const FieldInfo& info) {
  if (!value.is_array() || value.size() != count) return wrong_type(context, value, expected, info);
  for (std::size_t i = 0; i < count; ++i) {
    Context::Scope scope(context, i);
    if (!value[i].is_number()) return wrong_type(context, value[i], expected, info, true);
    *numbers[i] = value[i].get<double>() + 0.0;  // no negative zero
    if (!(std::abs(*numbers[i]) <= most)) wrong_value(context, value[i], expected, info);
  }
  return true;
}

bool read_point(Context& context, const Json& value, double* const* coordinates, std::size_t count,
                const FieldInfo& info) {
  return read_tuple(context, value, coordinates, count, farthest_m, place_words(count), info);
}

bool is_object(Context& context, const Json& value, const FieldInfo& info) {
  if (value.is_object()) return true;
  context.broken(value, "an object {...}",
                 fmt::format("\"{}\" is {}, but takes an object of numbers by name{}.", info.key, type_words(value),
                             with_meaning(info)));
  return false;
}

}  // namespace

bool is_list(Context& context, const Json& value, std::size_t max_count, const FieldInfo& info) {
  if (!value.is_array()) {
    context.broken(value, list_words(max_count),
                   fmt::format("\"{}\" is {}, but takes a list [...]{}.{}", info.key, type_words(value),
                               with_meaning(info), hint(value, false)));
    return false;
  }
  if (value.size() <= max_count) return true;
  context.broken(value, list_words(max_count),
                 fmt::format("\"{}\" has {} entries, more than the {} that a document may have.", info.key,
                             value.size(), max_count));
  return false;
}

std::size_t read_name(Context& context, const Json& value, std::span<const char* const> list, const FieldInfo& info) {
  const auto words = [&] { return std::vector<std::string>(list.begin(), list.end()); };
  if (!value.is_string()) {
    wrong_type(context, value, words_of(words()), info);
    return list.size();
  }
  const std::string& name = value.get_ref<const std::string&>();
  const auto found = std::find(list.begin(), list.end(), name);
  if (found == list.end()) {
    const std::string near = nearest(name, words());
    const std::string expected = words_of(words());
    context.error(value, expected,
                  fmt::format("\"{}\" is {}, but takes {}{}.{}", info.key, shown(value), expected, with_meaning(info),
                              near.empty() ? "" : fmt::format(" Did you mean \"{}\"?", near)));
  }
  return static_cast<std::size_t>(found - list.begin());
}

bool read_value(Context& context, const Json& value, double& out, const Number& rule, const FieldInfo& info) {
  if (!value.is_number()) return wrong_type(context, value, words_of(rule), info, true);
  out = value.get<double>() + 0.0;  // no negative zero
  if (!in_range(out, rule)) wrong_value(context, value, words_of(rule), info);
  return true;
}

bool read_value(Context& context, const Json& value, std::uint32_t& out, const Number& rule, const FieldInfo& info) {
  return read_whole(context, value, out, rule, info);
}

bool read_value(Context& context, const Json& value, std::int64_t& out, const Number& rule, const FieldInfo& info) {
  return read_whole(context, value, out, rule, info);
}

bool read_value(Context& context, const Json& value, std::uint64_t& out, const Number& rule, const FieldInfo& info) {
  return read_whole(context, value, out, rule, info);
}

bool read_value(Context& context, const Json& value, bool& out, const Flag&, const FieldInfo& info) {
  if (!value.is_boolean()) return wrong_type(context, value, "true or false", info);
  out = value.get<bool>();
  return true;
}

bool read_value(Context& context, const Json& value, std::string& out, const Text& rule, const FieldInfo& info) {
  return read_text(context, value, out, rule, rule, info);
}

bool read_value(Context& context, const Json& value, std::string& out, const Choice& rule, const FieldInfo& info) {
  const std::span<const char* const> list(rule.begin, rule.end);
  const std::size_t index = read_name(context, value, list, info);
  if (index == list.size()) return false;
  out = list[index];
  return true;
}

bool read_value(Context& context, const Json& value, std::string& out, const Id& rule, const FieldInfo& info) {
  const Text form{longest_id, Form::name};
  if (!read_text(context, value, out, form, form, info)) return false;
  if (!out.empty()) context.define(rule.kind, out);
  return true;
}

bool read_value(Context& context, const Json& value, std::string& out, const Ref& rule, const FieldInfo& info) {
  if (!read_text(context, value, out, {longest_id, Form::name}, rule, info)) return false;
  if (!out.empty()) context.refer(rule, out);
  return true;
}

bool read_value(Context& context, const Json& value, geometry::Point2& out, const Place&, const FieldInfo& info) {
  double* const coordinates[] = {&out.x_m, &out.y_m};
  return read_point(context, value, coordinates, 2, info);
}

bool read_value(Context& context, const Json& value, geometry::Point3& out, const Place&, const FieldInfo& info) {
  double* const coordinates[] = {&out.x_m, &out.y_m, &out.z_m};
  return read_point(context, value, coordinates, 3, info);
}

bool read_value(Context& context, const Json& value, geometry::Polyline& out, const Places& rule,
                const FieldInfo& info) {
  if (!is_list(context, value, most_points, info)) return false;
  const bool enough = value.size() >= rule.min_count || (value.empty() && rule.may_be_empty);
  if (!enough) wrong_value(context, value, words_of(rule), info);
  for (std::size_t i = 0; i < value.size(); ++i) {
    Context::Scope scope(context, i);
    geometry::Point2 point;
    if (read_value(context, value[i], point, Place{}, info)) out.push_back(point);
  }
  return true;
}

bool read_value(Context& context, const Json& value, geometry::PixelPoint& out, const Pixel& rule,
                const FieldInfo& info) {
  double* const coordinates[] = {&out.x_px, &out.y_px};
  return read_tuple(context, value, coordinates, 2, farthest_px, words_of(rule), info);
}

bool read_value(Context& context, const Json& value, geometry::PixelOutline& out, const Pixels& rule,
                const FieldInfo& info) {
  if (!is_list(context, value, rule.max_count, info)) return false;
  const bool enough = value.size() >= rule.min_count || (value.empty() && rule.may_be_empty);
  if (!enough) wrong_value(context, value, words_of(rule), info);
  for (std::size_t i = 0; i < value.size(); ++i) {
    Context::Scope scope(context, i);
    geometry::PixelPoint point;
    if (read_value(context, value[i], point, Pixel{}, info)) out.push_back(point);
  }
  return true;
}

bool read_value(Context& context, const Json& value, geometry::Vec3& out, const Way& rule, const FieldInfo& info) {
  double* const parts[] = {&out.x, &out.y, &out.z};
  return read_tuple(context, value, parts, 3, 1, words_of(rule), info);
}

bool read_value(Context& context, const Json& value, std::vector<double>& out, const Numbers& rule,
                const FieldInfo& info) {
  if (!value.is_array()) return wrong_type(context, value, words_of(rule), info);
  const bool count_fits = value.size() >= rule.min_count && value.size() <= rule.max_count;
  const bool left_empty = value.empty() && info.need == optional;
  if (!count_fits && !left_empty) {
    wrong_value(context, value, words_of(rule), info);
    return false;
  }
  out.clear();
  for (std::size_t i = 0; i < value.size(); ++i) {
    Context::Scope scope(context, i);
    double number = 0;
    if (!read_value(context, value[i], number, rule.each, info)) continue;
    if (rule.ascending && !out.empty() && number <= out.back()) wrong_value(context, value[i], words_of(rule), info);
    out.push_back(number);
  }
  return true;
}

bool read_value(Context& context, const Json& value, std::vector<std::string>& out, const Texts& rule,
                const FieldInfo& info) {
  if (!is_list(context, value, rule.max_count, info)) return false;
  const FieldInfo each{info.key, rule.each.form == Form::plain ? optional : required, info.meaning};
  for (std::size_t i = 0; i < value.size(); ++i) {
    Context::Scope scope(context, i);
    if (!read_value(context, value[i], out.emplace_back(), rule.each, each)) out.pop_back();
  }
  return true;
}

bool read_value(Context& context, const Json& value, std::vector<std::string>& out, const Refs& rule,
                const FieldInfo& info) {
  if (!is_list(context, value, rule.max_count, info)) return false;
  const FieldInfo each{info.key, required, info.meaning};
  for (std::size_t i = 0; i < value.size(); ++i) {
    Context::Scope scope(context, i);
    if (!read_value(context, value[i], out.emplace_back(), rule.each, each)) out.pop_back();
  }
  return true;
}

bool read_value(Context& context, const Json& value, std::map<std::string, double>& out, const NumberMap& rule,
                const FieldInfo& info) {
  if (!is_object(context, value, info)) return false;
  for (const auto& [key, entry] : value.items()) {
    Context::Scope scope(context, key);
    double number = 0;
    if (read_value(context, entry, number, rule.each, {key.c_str(), required, info.meaning})) out[key] = number;
  }
  return true;
}

bool read_value(Context& context, const Json& value, std::map<std::string, std::map<std::string, double>>& out,
                const NumberMap& rule, const FieldInfo& info) {
  if (!is_object(context, value, info)) return false;
  for (const auto& [key, entry] : value.items()) {
    Context::Scope scope(context, key);
    read_value(context, entry, out[key], rule, {key.c_str(), required, info.meaning});
  }
  return true;
}

}  // namespace duskwire::formats
