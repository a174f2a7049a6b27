// SPDX-License-Identifier: Apache-2.0
// The visitor that reads an object by its shape. Each part's own file makes the readers of its shapes from it:
//   void read_part(Context& context, const Json& value, job::Plan& out) { read_shape(context, value, out); }
#pragma once

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

#include "base/nearest.hpp"
#include "formats/context.hpp"
#include "formats/expectation.hpp"
#include "formats/parts.hpp"
#include "formats/read_value.hpp"
#include "formats/type_names.hpp"

namespace duskwire::formats {

template <class T>
void read_shape(Context& context, const Json& value, T& out);

// Most types have no rule about several fields together; parts.hpp has the overloads of those that have.
template <class T>
void check_whole(Context&, const T&) {}

// Objects within a part; an overload that is not a template (parts.hpp) comes first.
template <class T>
void read_part(Context& context, const Json& value, T& out) {
  read_shape(context, value, out);
  check_whole(context, out);
}

template <class M>
std::string expected_words(const M&, const Number& rule) {
  return words_of(rule, std::is_integral_v<M>);
}
template <class M>
std::string expected_words(const std::optional<M>&, const Number& rule) {
  return words_of(rule, std::is_integral_v<M>);
}
inline std::string expected_words(const std::string&, const Text& rule) { return words_of(rule); }
inline std::string expected_words(const std::string&, const Choice& rule) {
  return words_of(std::vector<std::string>(rule.begin, rule.end));
}
inline std::string expected_words(const std::string&, const Id&) { return words_of(Text{longest_id, Form::name}); }
inline std::string expected_words(const std::string&, const Ref& rule) { return words_of(rule); }
template <class M>
std::string expected_words(const M&, const OneOf&) {
  const auto list = names(Of<inner_t<M>>{});
  return words_of(std::vector<std::string>(list.begin(), list.end()));
}
inline std::string expected_words(const geometry::Point2&, const Place&) { return place_words(2); }
inline std::string expected_words(const geometry::Point3&, const Place&) { return place_words(3); }
inline std::string expected_words(const geometry::Polyline&, const Places& rule) { return words_of(rule); }
inline std::string expected_words(const geometry::PixelPoint&, const Pixel& rule) { return words_of(rule); }
inline std::string expected_words(const geometry::PixelOutline&, const Pixels& rule) { return words_of(rule); }
inline std::string expected_words(const geometry::Vec3&, const Way& rule) { return words_of(rule); }
inline std::string expected_words(const std::vector<double>&, const Numbers& rule) { return words_of(rule); }
template <class M>
std::string expected_words(const std::vector<M>&, const List& rule) {
  return list_words(rule.max_count);
}
template <class M>
std::string expected_words(const M&, const Part&) {
  return "an object {...}";
}

template <class T>
class ReadVisitor {
 public:
  ReadVisitor(Context& context, const Json& object, T& out) : context_(context), object_(object), out_(out) {
    known_.reserve(24);
  }

  template <class M, class Rule>
  void field(const char* key, M T::*member, const Rule& rule, Need need, const char* meaning) {
    known_.push_back(key);
    if (const Json* found = find(key)) {
      Context::Scope scope(context_, key);
      read(*found, out_.*member, rule, {key, need, meaning});
    } else if (need == required) {
      missing(key, out_.*member, rule, meaning);
    }
  }

  // After the last field: what the shape does not know is kept as it is.
  void keep_the_rest(const std::vector<std::string>& also_known) {
    if (found_count_ == object_.size()) return;
    Json rest = Json::object();
    for (const auto& [key, value] : members()) {
      if (is_in(known_, key) || is_in(also_known, key)) continue;
      rest.get_ref<Json::object_t&>().emplace_back(key, value);
      warn_of_likeness(key, value);
    }
    if constexpr (requires { out_.extra; }) out_.extra = rest.empty() ? "" : compact_text(rest);
  }

 private:
  template <class List>
  static bool is_in(const List& list, const std::string& key) {
    return std::find(list.begin(), list.end(), key) != list.end();
  }

  [[nodiscard]] const Json::object_t& members() const { return object_.get_ref<const Json::object_t&>(); }

  // Documents have their keys mostly in the shape's order, so the search goes on from the last one found.
  const Json* find(std::string_view key) {
    const auto& all = members();
    for (std::size_t tried = 0; tried < all.size(); ++tried, ++next_) {
      if (next_ >= all.size()) next_ = 0;
      const auto& member = all.data()[next_];
      if (member.first != key) continue;
      ++found_count_;
      ++next_;
      return &member.second;
    }
    return nullptr;
  }

  template <class M, class Rule>
  void missing(const char* key, const M& member, const Rule& rule, const char* meaning) {
    if constexpr (requires { expected_words(member, rule); }) {
      const std::string expected = expected_words(member, rule);
      context_.report(Severity::error, "", expected,
                      fmt::format("\"{}\" is missing; it takes {} ({}).", key, expected, meaning));
    }
  }

  // A key that is nearly a known one is probably meant for it.
  void warn_of_likeness(const std::string& key, const Json& value) {
    const std::string near = nearest(key, std::vector<std::string>(known_.begin(), known_.end()));
    if (near.empty() || object_.find(near) != object_.end()) return;
    Context::Scope scope(context_, key);
    context_.report(
        Severity::warning, shown(value), fmt::format("the key \"{}\"", near),
        fmt::format("The key \"{}\" is not known; it is kept, but not used. Did you mean \"{}\"?", key, near));
  }

  template <class M, class Rule>
  void read(const Json& value, M& member, const Rule& rule, const FieldInfo& info) {
    read_value(context_, value, member, rule, info);
  }
  // Its own reader finds what is wrong with it; the text stays as it is.
  template <class M>
  void read(const Json& value, std::string& member, const Kept<M>&, const FieldInfo& info) {
    if (!value.is_object()) {
      context_.error(value, "an object {...}",
                     fmt::format("\"{}\" is {}, where an object {{...}} is expected.", info.key, type_words(value)));
      return;
    }
    if constexpr (!std::is_void_v<M>) {
      M seen;
      read_part(context_, value, seen);
    }
    member = compact_text(value);
  }
  template <class M>
  void read(const Json& value, M& member, const Part&, const FieldInfo&) {
    read_part(context_, value, member);
  }
  template <class M>
  void read(const Json& value, std::optional<M>& member, const Part&, const FieldInfo&) {
    read_part(context_, value, member.emplace());
  }
  template <class M>
  void read(const Json& value, std::vector<M>& member, const List& rule, const FieldInfo& info) {
    if (!is_list(context_, value, rule.max_count, info)) return;
    member.reserve(value.size());
    for (std::size_t i = 0; i < value.size(); ++i) {
      Context::Scope scope(context_, i);
      read_part(context_, value[i], member.emplace_back());
    }
  }

  Context& context_;
  const Json& object_;
  T& out_;
  std::vector<std::string_view> known_;
  std::size_t next_ = 0;         // where among the members the search goes on
  std::size_t found_count_ = 0;  // members that the shape knows
};

// `also_known`: keys that the caller reads itself, such as the head of a document.
template <class T>
void read_shape(Context& context, const Json& value, T& out, const std::vector<std::string>& also_known) {
  if (!value.is_object()) {
    context.broken(value, "an object {...}",
                   fmt::format("Here is {}, where an object {{...}} is expected.", type_words(value)));
    return;
  }
  const Context::Subject subject(context, type_name(Of<T>{}), value);
  ReadVisitor<T> visitor(context, value, out);
  describe(Of<T>{}, visitor);
  visitor.keep_the_rest(also_known);
}

template <class T>
void read_shape(Context& context, const Json& value, T& out) {
  read_shape(context, value, out, {});
}

}  // namespace duskwire::formats
