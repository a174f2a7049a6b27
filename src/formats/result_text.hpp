// SPDX-License-Identifier: Apache-2.0
// The visitor that writes a result straight to text, the same bytes as compact_text(result_json(...)) without building
// a tree: the page asks for a report at each move of a drag.
#pragma once

#include <fmt/compile.h>

#include <cstddef>
#include <optional>
#include <string>
#include <type_traits>

#include "formats/write_result.hpp"

namespace duskwire::formats {

template <class T>
void append_result(std::string& out, const T& value);

template <class T>
class ResultTextWriter {
 public:
  ResultTextWriter(const T& object, std::string& out) : object_(object), out_(out) {}

  template <class M>
  void result(const char* key, M T::*member, const char*) {
    member_text(key, object_.*member);
  }
  template <class M>
  void result(const char* key, std::optional<M> T::*member, const char*) {
    if (object_.*member) member_text(key, *(object_.*member));
  }

 private:
  template <class M>
  void member_text(const char* key, const M& value) {
    out_ += first_ ? "\"" : ",\"";  // keys are our own: none of them needs an escape
    first_ = false;
    out_ += key;
    out_ += "\":";
    append_result(out_, value);
  }

  const T& object_;
  std::string& out_;
  bool first_ = true;
};

template <class T>
void append_result(std::string& out, const T& value) {
  if constexpr (std::is_same_v<T, double>) {
    append_number(out, value);
  } else if constexpr (std::is_same_v<T, std::string>) {
    append_text(out, value);
  } else if constexpr (std::is_arithmetic_v<T>) {
    out += fmt::format(FMT_COMPILE("{}"), value);  // whole numbers; true and false
  } else if constexpr (std::is_enum_v<T>) {
    append_text(out, names(Of<T>{}).at(static_cast<std::size_t>(value)));
  } else if constexpr (IsList<T>::value) {
    out += '[';
    for (std::size_t i = 0; i < value.size(); ++i) {
      if (i > 0) out += ',';
      append_result(out, value[i]);
    }
    out += ']';
  } else if constexpr (requires(ResultTextWriter<T> & writer) { describe_result(Of<T>{}, writer); }) {
    out += '{';
    ResultTextWriter<T> writer(value, out);
    describe_result(Of<T>{}, writer);
    out += '}';
  } else {
    out += compact_text(result_json(value));  // part of a document, such as a change
  }
}

}  // namespace duskwire::formats
