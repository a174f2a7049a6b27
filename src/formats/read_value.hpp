// SPDX-License-Identifier: Apache-2.0
// One value of a document into one variable, by the rule of its field. A value of the wrong type leaves the variable as
// it was and gives false; one out of range is stored all the same, so that a job with errors can be shown as it is.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <type_traits>
#include <utility>
#include <vector>

#include "formats/context.hpp"
#include "formats/enum_names.hpp"
#include "formats/shape.hpp"
#include "geometry/pixel.hpp"
#include "geometry/point.hpp"
#include "geometry/vec3.hpp"

namespace duskwire::formats {

// What a message says about the field.
struct FieldInfo {
  const char* key = "";
  Need need = optional;
  const char* meaning = "";
};

bool read_value(Context& context, const Json& value, double& out, const Number& rule, const FieldInfo& info);
bool read_value(Context& context, const Json& value, std::uint32_t& out, const Number& rule, const FieldInfo& info);
bool read_value(Context& context, const Json& value, std::int64_t& out, const Number& rule, const FieldInfo& info);
bool read_value(Context& context, const Json& value, std::uint64_t& out, const Number& rule, const FieldInfo& info);
bool read_value(Context& context, const Json& value, bool& out, const Flag& rule, const FieldInfo& info);
bool read_value(Context& context, const Json& value, std::string& out, const Text& rule, const FieldInfo& info);
bool read_value(Context& context, const Json& value, std::string& out, const Choice& rule, const FieldInfo& info);
bool read_value(Context& context, const Json& value, std::string& out, const Id& rule, const FieldInfo& info);
bool read_value(Context& context, const Json& value, std::string& out, const Ref& rule, const FieldInfo& info);
bool read_value(Context& context, const Json& value, geometry::Point2& out, const Place& rule, const FieldInfo& info);
bool read_value(Context& context, const Json& value, geometry::Point3& out, const Place& rule, const FieldInfo& info);
bool read_value(Context& context, const Json& value, geometry::Polyline& out, const Places& rule,
                const FieldInfo& info);
bool read_value(Context& context, const Json& value, geometry::PixelPoint& out, const Pixel& rule,
                const FieldInfo& info);
bool read_value(Context& context, const Json& value, geometry::PixelOutline& out, const Pixels& rule,
                const FieldInfo& info);
bool read_value(Context& context, const Json& value, geometry::Vec3& out, const Way& rule, const FieldInfo& info);
bool read_value(Context& context, const Json& value, std::vector<double>& out, const Numbers& rule,
                const FieldInfo& info);
bool read_value(Context& context, const Json& value, std::vector<std::string>& out, const Texts& rule,
                const FieldInfo& info);
bool read_value(Context& context, const Json& value, std::vector<std::string>& out, const Refs& rule,
                const FieldInfo& info);
bool read_value(Context& context, const Json& value, std::map<std::string, double>& out, const NumberMap& rule,
                const FieldInfo& info);
bool read_value(Context& context, const Json& value, std::map<std::string, std::map<std::string, double>>& out,
                const NumberMap& rule, const FieldInfo& info);

// Whether a value is a list of at most max_count entries; if not, says so.
bool is_list(Context& context, const Json& value, std::size_t max_count, const FieldInfo& info);

// The index of a name in a list; its size, with a problem, where it is none of them.
std::size_t read_name(Context& context, const Json& value, std::span<const char* const> list, const FieldInfo& info);

template <class Enum>
requires std::is_enum_v<Enum>
bool read_value(Context& context, const Json& value, Enum& out, const OneOf&, const FieldInfo& info) {
  const auto list = names(Of<Enum>{});
  const std::size_t index = read_name(context, value, list, info);
  if (index == list.size()) return false;
  out = static_cast<Enum>(index);
  return true;
}

template <class M, class Rule>
bool read_value(Context& context, const Json& value, std::optional<M>& out, const Rule& rule, const FieldInfo& info) {
  M read{};
  if (!read_value(context, value, read, rule, info)) return false;
  out = std::move(read);
  return true;
}

}  // namespace duskwire::formats
