// SPDX-License-Identifier: Apache-2.0
// The shape of a document part, said once: describe(Of<T>, visitor) names each field of T with its rule, and one
// visitor each reads it, writes it and publishes it as schema and as table. So none of the four can forget a field or
// differ in a range. A field's default is the one of a freshly made T.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>

namespace duskwire::formats {

// Picks the overload of describe() and names() for T.
template <class T>
struct Of {};

enum class Need : std::uint8_t { optional, required };
inline constexpr Need optional = Need::optional;
inline constexpr Need required = Need::required;

// The type within an optional.
template <class M>
struct Inner {
  using type = M;
};
template <class M>
struct Inner<std::optional<M>> {
  using type = M;
};
template <class M>
using inner_t = typename Inner<M>::type;

// Things that other parts name by id. Ids are unique within one kind; luminaires, outputs and joints share one space.
enum class Kind : std::uint8_t {
  none = 0,
  luminaire_item,
  transformer_item,
  cable_item,
  connector_item,
  control_item,
  sundry_item,
  area,
  sleeve,
  receptacle,
  view_point,
  tree,
  fixed_point,
  luminaire,
  output,
  joint,
  transformer,
  cable,
  view,
  programme_entry,
  offer_option,
  rule,
};
inline constexpr std::size_t kind_count = static_cast<std::size_t>(Kind::rule) + 1;

// A number in `unit` from min to max, both allowed unless above_min. Members of integer type take whole numbers only.
struct Number {
  double min = 0;
  double max = 0;
  const char* unit = "";
  bool above_min = false;
};

enum class Form : std::uint8_t {
  plain,
  date,          // ISO 8601 calendar date
  date_or_time,  // the same, or with a time and perhaps an offset
  clock,         // HH:MM
  month_day,     // MM-DD
  weekday,       // mon ... sun
  currency,      // ISO 4217
  time_zone,     // IANA name
  name,          // an id that is not looked up in this document
};

struct Text {
  std::uint32_t max_chars = 200;
  Form form = Form::plain;
};

// Text out of a short list.
struct Choice {
  const char* const* begin = nullptr;
  const char* const* end = nullptr;
};

struct Flag {};

// A member of enum type, by its name in enum_names.hpp.
struct OneOf {};

// The id of the object itself.
struct Id {
  Kind kind = Kind::none;
};

// The id of another object, of one of up to three kinds.
struct Ref {
  Kind kind = Kind::none;
  Kind or_kind = Kind::none;
  Kind or_kind_too = Kind::none;
};

// One point, [x, y] or [x, y, z].
struct Place {};

// A list of points; `may_be_empty` allows none beside min_count and more.
struct Places {
  std::uint32_t min_count = 2;
  bool may_be_empty = true;
};

// A place on a picture, [x, y] in picture elements from its top left corner.
struct Pixel {};

// Places on a picture; `may_be_empty` allows none beside min_count and more.
struct Pixels {
  std::uint32_t min_count = 3;
  std::uint32_t max_count = 0;
  bool may_be_empty = false;
};

// Which way something faces, [x, y, z] in the site frame; not all zero.
struct Way {};

struct Numbers {
  Number each;
  std::uint32_t min_count = 0;
  std::uint32_t max_count = 0;
  bool ascending = false;
};

struct Texts {
  Text each;
  std::uint32_t max_count = 100;
};

struct Refs {
  Ref each;
  std::uint32_t max_count = 100;
};

// Numbers by free names, one or two levels deep.
struct NumberMap {
  Number each{-1e12, 1e12, ""};
};

// An object within the object.
struct Part {};

// An object that is kept as the text it was written in; where T is given it must be a T.
template <class T = void>
struct Kept {};

// A list of objects.
struct List {
  std::uint32_t max_count = 0;
};

// Coordinates lie within 100 km of the site's origin.
inline constexpr double farthest_m = 100'000;
inline constexpr std::uint32_t most_points = 10'000;
inline constexpr std::uint32_t longest_id = 64;
inline constexpr double farthest_px = 1'000'000;

// The id of something that is not looked up while reading.
inline constexpr Text other_id{longest_id, Form::name};

}  // namespace duskwire::formats
