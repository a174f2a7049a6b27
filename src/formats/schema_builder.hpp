// SPDX-License-Identifier: Apache-2.0
// The visitor that turns shapes into JSON Schema: one entry in $defs per shape, one property per field.
#pragma once

#include <fmt/format.h>

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

#include "formats/enum_names.hpp"
#include "formats/json_text.hpp"
#include "formats/shape.hpp"
#include "formats/text_forms.hpp"
#include "formats/type_names.hpp"
#include "geometry/pixel.hpp"
#include "geometry/point.hpp"
#include "geometry/vec3.hpp"

namespace duskwire::formats {

// A bound without a fraction is written without one.
inline Json plain_number(double value) {
  const auto whole = static_cast<std::int64_t>(value);
  return static_cast<double>(whole) == value ? Json(whole) : Json(value);
}

template <class M>
Json number_schema(const Number& rule) {
  Json schema;
  schema["type"] = std::is_integral_v<inner_t<M>> ? "integer" : "number";
  schema[rule.above_min ? "exclusiveMinimum" : "minimum"] = plain_number(rule.min);
  schema["maximum"] = plain_number(rule.max);
  return schema;
}

inline Json text_schema(const Text& rule, bool may_be_empty) {
  Json schema = {{"type", "string"}, {"maxLength", rule.max_chars}};
  std::string pattern = pattern_of(rule.form);
  if (may_be_empty && rule.form != Form::plain) pattern = "^$|" + pattern;
  schema["pattern"] = pattern;
  return schema;
}

inline Json names_schema(const char* const* begin, const char* const* end) {
  Json schema;
  for (; begin != end; ++begin) schema["enum"].push_back(*begin);
  return schema;
}

template <std::size_t size>
Json tuple_schema(double most) {
  Json schema = {{"type", "array"}};
  for (std::size_t i = 0; i < size; ++i) {
    schema["prefixItems"].push_back(
        {{"type", "number"}, {"minimum", plain_number(-most)}, {"maximum", plain_number(most)}});
  }
  schema["items"] = false;
  schema["minItems"] = size;
  return schema;
}

template <class T>
class SchemaVisitor;

// Collects the shapes that a document is made of.
class SchemaBuilder {
 public:
  template <class T>
  std::string add() {
    const std::string name = type_name(Of<T>{});
    if (!defs_.contains(name)) {
      defs_[name] = Json();  // holds the place: a shape comes before those that it is made of
      SchemaVisitor<T> visitor(*this);
      describe(Of<T>{}, visitor);
      defs_[name] = visitor.schema();
    }
    return "#/$defs/" + name;
  }
  template <class T>
  Json reference() {
    return {{"$ref", add<T>()}};
  }
  [[nodiscard]] Json& defs() { return defs_; }

 private:
  Json defs_ = Json::object();
};

template <class T>
class SchemaVisitor {
 public:
  explicit SchemaVisitor(SchemaBuilder& builder) : builder_(builder) {}

  template <class M, class Rule>
  void field(const char* key, M T::*member, const Rule& rule, Need need, const char* meaning) {
    Json schema = value_schema(static_cast<M*>(nullptr), rule, need);
    schema["description"] = with_unit(meaning, rule);
    if (need == required) {
      required_.push_back(key);
    } else {
      add_default(schema, blank_.*member);
    }
    properties_[key] = schema;
  }

  [[nodiscard]] Json schema() const {
    Json schema = {{"type", "object"}, {"properties", properties_}};
    if (!required_.empty()) schema["required"] = required_;
    return schema;
  }

 private:
  template <class Rule>
  static std::string with_unit(const char* meaning, const Rule& rule) {
    std::string_view unit;
    if constexpr (std::is_same_v<Rule, Number>) unit = rule.unit;
    if constexpr (std::is_same_v<Rule, Numbers>) unit = rule.each.unit;
    if constexpr (std::is_same_v<Rule, Place> || std::is_same_v<Rule, Places>) unit = "m";
    if constexpr (std::is_same_v<Rule, Pixel> || std::is_same_v<Rule, Pixels>) unit = "px";
    return unit.empty() ? std::string(meaning) : fmt::format("{} [{}]", meaning, unit);
  }

  template <class M>
  void add_default(Json& schema, const M& blank) {
    if constexpr (std::is_same_v<M, bool>) schema["default"] = blank;
    if constexpr (std::is_same_v<M, double>) schema["default"] = plain_number(blank);
    if constexpr (std::is_integral_v<M> && !std::is_same_v<M, bool>) schema["default"] = blank;
    if constexpr (std::is_same_v<M, std::string>) {
      if (!blank.empty()) schema["default"] = blank;
    }
    if constexpr (std::is_enum_v<M>) schema["default"] = names(Of<M>{}).at(static_cast<std::size_t>(blank));
  }

  template <class M>
  Json value_schema(M*, const Number& rule, Need) {
    return number_schema<M>(rule);
  }
  Json value_schema(std::string*, const Text& rule, Need need) { return text_schema(rule, need == optional); }
  Json value_schema(std::string*, const Choice& rule, Need) { return names_schema(rule.begin, rule.end); }
  template <class M>
  Json value_schema(M*, const Flag&, Need) {
    return {{"type", "boolean"}};
  }
  template <class M>
  Json value_schema(M*, const OneOf&, Need) {
    const auto list = names(Of<inner_t<M>>{});
    return names_schema(list.data(), list.data() + list.size());
  }
  template <class M>
  Json value_schema(std::string*, const Kept<M>&, Need) {
    if constexpr (std::is_void_v<M>) {
      return {{"type", "object"}};
    } else {
      return builder_.reference<M>();
    }
  }
  Json value_schema(std::string*, const Id&, Need) { return text_schema({longest_id, Form::name}, false); }
  Json value_schema(std::string*, const Ref&, Need need) {
    return text_schema({longest_id, Form::name}, need == optional);
  }
  template <class M>
  Json value_schema(M*, const Place&, Need) {
    return tuple_schema < std::is_same_v<inner_t<M>, geometry::Point3> ? 3 : 2 > (farthest_m);
  }
  Json value_schema(geometry::Polyline*, const Places& rule, Need) {
    Json schema = {{"type", "array"}, {"items", tuple_schema<2>(farthest_m)}, {"maxItems", most_points}};
    if (rule.may_be_empty) {
      schema["anyOf"] = {{{"maxItems", 0}}, {{"minItems", rule.min_count}}};
    } else {
      schema["minItems"] = rule.min_count;
    }
    return schema;
  }
  template <class M>
  Json value_schema(M*, const Pixel&, Need) {
    return tuple_schema<2>(farthest_px);
  }
  Json value_schema(geometry::PixelOutline*, const Pixels& rule, Need) {
    Json schema = {{"type", "array"}, {"items", tuple_schema<2>(farthest_px)}, {"maxItems", rule.max_count}};
    if (rule.may_be_empty) {
      schema["anyOf"] = {{{"maxItems", 0}}, {{"minItems", rule.min_count}}};
    } else {
      schema["minItems"] = rule.min_count;
    }
    return schema;
  }
  Json value_schema(geometry::Vec3*, const Way&, Need) { return tuple_schema<3>(1); }
  Json value_schema(std::vector<double>*, const Numbers& rule, Need need) {
    Json schema = {{"type", "array"}, {"items", number_schema<double>(rule.each)}, {"maxItems", rule.max_count}};
    if (need == required || rule.min_count == 0) {
      schema["minItems"] = rule.min_count;
    } else {
      schema["anyOf"] = {{{"maxItems", 0}}, {{"minItems", rule.min_count}}};
    }
    return schema;
  }
  Json value_schema(std::vector<std::string>*, const Texts& rule, Need) {
    return {{"type", "array"}, {"items", text_schema(rule.each, false)}, {"maxItems", rule.max_count}};
  }
  Json value_schema(std::vector<std::string>*, const Refs& rule, Need) {
    return {{"type", "array"}, {"items", text_schema({longest_id, Form::name}, false)}, {"maxItems", rule.max_count}};
  }
  Json value_schema(std::map<std::string, double>*, const NumberMap& rule, Need) {
    return {{"type", "object"}, {"additionalProperties", number_schema<double>(rule.each)}};
  }
  template <class M>
  Json value_schema(std::map<std::string, M>*, const NumberMap& rule, Need need) {
    return {{"type", "object"}, {"additionalProperties", value_schema(static_cast<M*>(nullptr), rule, need)}};
  }
  template <class M>
  Json value_schema(M*, const Part&, Need) {
    return builder_.reference<inner_t<M>>();
  }
  template <class M>
  Json value_schema(std::vector<M>*, const List& rule, Need) {
    return {{"type", "array"}, {"items", builder_.reference<M>()}, {"maxItems", rule.max_count}};
  }

  SchemaBuilder& builder_;
  const T blank_{};
  Json properties_ = Json::object();
  std::vector<std::string> required_;
};

}  // namespace duskwire::formats
