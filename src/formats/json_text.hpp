// SPDX-License-Identifier: Apache-2.0
// JSON text to a tree and back, with what nlohmann's own reader leaves open: duplicate keys are told, depth and size
// are bounded, errors come as problems with line, column and pointer; what is written is stable and diffs well.
#pragma once

#include <cstddef>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>

#include "base/problem.hpp"

namespace duskwire::formats {

using Json = nlohmann::ordered_json;

struct TextLimits {
  std::size_t bytes = 64u << 20u;
  std::size_t values = 2'000'000;
  std::size_t depth = 64;
  std::size_t keys_per_object = 4096;
};

struct ParsedText {
  std::optional<Json> tree;  // absent: not JSON, or too large; a key that comes twice keeps its first value
  Problems problems;
};

[[nodiscard]] ParsedText parse_text(std::string_view text, const TextLimits& limits = {});

// Two spaces a level; an array of numbers stays on one line. Numbers are the shortest text that reads back the same,
// NaN and infinity become null, ill-formed UTF-8 becomes U+FFFD. No line break at the end.
[[nodiscard]] std::string indented_text(const Json& tree);

// The same on one line, without spaces.
[[nodiscard]] std::string compact_text(const Json& tree);

// The pieces of both, for who writes text without a tree: a number, and a text in its quotes.
void append_number(std::string& out, double value);
void append_text(std::string& out, std::string_view raw);

// A key or index as part of a JSON pointer (RFC 6901).
[[nodiscard]] std::string pointer_part(std::string_view key);

}  // namespace duskwire::formats
