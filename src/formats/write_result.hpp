// SPDX-License-Identifier: Apache-2.0
// The visitor that writes a result as JSON: every field, empty ones too; only an absent value is left out. A number
// that is not finite becomes null in the text.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <type_traits>
#include <vector>

#include "formats/enum_names.hpp"
#include "formats/json_text.hpp"
#include "formats/shape.hpp"
#include "formats/write_shape.hpp"
#include "geometry/point.hpp"

namespace duskwire::formats {

template <class T>
Json result_json(const T& value);

template <class T>
class ResultWriter {
 public:
  ResultWriter(const T& object, Json& out) : object_(object), out_(out) {}

  template <class M>
  void result(const char* key, M T::*member, const char*) {
    out_[key] = result_json(object_.*member);
  }
  template <class M>
  void result(const char* key, std::optional<M> T::*member, const char*) {
    if (object_.*member) out_[key] = result_json(*(object_.*member));
  }

 private:
  const T& object_;
  Json& out_;
};

template <class T>
struct IsList : std::false_type {};
template <class T>
struct IsList<std::vector<T>> : std::true_type {};

template <class T>
Json result_json(const T& value) {
  if constexpr (std::is_enum_v<T>) {
    const auto list = names(Of<T>{});
    return list.at(static_cast<std::size_t>(value));
  } else if constexpr (std::is_arithmetic_v<T> || std::is_same_v<T, std::string>) {
    return value;
  } else if constexpr (std::is_same_v<T, geometry::Point2>) {
    return Json::array({value.x_m, value.y_m});
  } else if constexpr (std::is_same_v<T, geometry::Point3>) {
    return Json::array({value.x_m, value.y_m, value.z_m});
  } else if constexpr (IsList<T>::value) {
    Json out = Json::array();
    for (const auto& each : value) out.push_back(result_json(each));
    return out;
  } else if constexpr (requires(ResultWriter<T> & writer) { describe_result(Of<T>{}, writer); }) {
    Json out = Json::object();
    ResultWriter<T> writer(value, out);
    describe_result(Of<T>{}, writer);
    return out;
  } else {
    return shape_json(value);  // part of a document, such as a catalogue item or a change
  }
}

}  // namespace duskwire::formats
