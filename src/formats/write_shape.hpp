// SPDX-License-Identifier: Apache-2.0
// The visitor that writes an object by its shape: keys in the shape's order, unknown keys after them. Every number,
// flag and name is written, defaults too, so that a document says by itself what was computed with; only what is empty
// (no text, an empty list, an absent value) is left out where it may be.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <type_traits>
#include <utility>
#include <vector>

#include "formats/enum_names.hpp"
#include "formats/json_text.hpp"
#include "formats/shape.hpp"
#include "geometry/pixel.hpp"
#include "geometry/point.hpp"
#include "geometry/vec3.hpp"
#include "job/job.hpp"

namespace duskwire::formats {

template <class T>
Json shape_json(const T& object);

// Adds the keys that a reader did not know and kept; a key that is there already stays as it is.
inline void add_extra(Json& object, const job::Extra& extra) {
  if (extra.empty()) return;
  const Json rest = Json::parse(extra, nullptr, false);
  if (!rest.is_object()) return;
  for (const auto& [key, value] : rest.get_ref<const Json::object_t&>()) {
    if (!object.contains(key)) object[key] = value;
  }
}

template <class T>
class WriteVisitor {
 public:
  WriteVisitor(const T& object, Json& out) : object_(object), out_(out) {}

  template <class M, class Rule>
  void field(const char* key, M T::*member, const Rule& rule, Need need, const char*) {
    const M& value = object_.*member;
    if (need == optional && is_empty(value, blank_.*member)) return;
    Json written = json_of(value, rule);
    if (need == optional && is_bare_part(value, rule) && written.empty()) return;
    out_[key] = std::move(written);
  }

 private:
  template <class M>
  static bool is_empty(const M&, const M&) {
    return false;
  }
  template <class M>
  static bool is_empty(const std::optional<M>& value, const std::optional<M>&) {
    return !value;
  }
  template <class M>
  static bool is_empty(const std::vector<M>& value, const std::vector<M>&) {
    return value.empty();
  }
  // A part that is always there, so that nothing is lost where it is left out.
  template <class M, class Rule>
  static constexpr bool is_bare_part(const M&, const Rule&) {
    return std::is_same_v<Rule, Part> && std::is_same_v<M, inner_t<M>>;
  }
  static bool is_empty(const std::string& value, const std::string& blank) { return value.empty() && blank.empty(); }

  template <class M, class Rule>
  static Json json_of(const M& value, const Rule&) {
    if constexpr (std::is_enum_v<M>) {
      const auto list = names(Of<M>{});
      return list.at(static_cast<std::size_t>(value));
    } else if constexpr (std::is_same_v<Rule, Part>) {
      return shape_json(value);
    } else {
      return value;
    }
  }
  template <class M, class Rule>
  static Json json_of(const std::optional<M>& value, const Rule& rule) {
    return value ? json_of(*value, rule) : Json();
  }
  template <class M>
  static Json json_of(const std::string& value, const Kept<M>&) {
    return Json::parse(value, nullptr, false);
  }
  static Json json_of(const geometry::Point2& value, const Place&) { return Json::array({value.x_m, value.y_m}); }
  static Json json_of(const geometry::Point3& value, const Place&) {
    return Json::array({value.x_m, value.y_m, value.z_m});
  }
  static Json json_of(const geometry::Polyline& value, const Places&) {
    Json list = Json::array();
    for (const geometry::Point2& point : value) list.push_back(json_of(point, Place{}));
    return list;
  }
  static Json json_of(const geometry::PixelPoint& value, const Pixel&) { return Json::array({value.x_px, value.y_px}); }
  static Json json_of(const geometry::PixelOutline& value, const Pixels&) {
    Json list = Json::array();
    for (const geometry::PixelPoint& point : value) list.push_back(json_of(point, Pixel{}));
    return list;
  }
  static Json json_of(const geometry::Vec3& value, const Way&) { return Json::array({value.x, value.y, value.z}); }
  template <class M>
  static Json json_of(const std::vector<M>& value, const List&) {
    Json list = Json::array();
    for (const M& each : value) list.push_back(shape_json(each));
    return list;
  }

  const T& object_;
  Json& out_;
  const T blank_{};
};

// Appends the fields of an object to `out`, which may hold a document's head.
template <class T>
void write_shape(const T& object, Json& out) {
  WriteVisitor<T> visitor(object, out);
  describe(Of<T>{}, visitor);
  if constexpr (requires { object.extra; }) add_extra(out, object.extra);
}

template <class T>
Json shape_json(const T& object) {
  Json out = Json::object();
  write_shape(object, out);
  return out;
}

}  // namespace duskwire::formats
