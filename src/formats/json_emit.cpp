// SPDX-License-Identifier: Apache-2.0
// indented_text and compact_text, and the pieces that they are made of.
#include <fmt/compile.h>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <iterator>

#include "base/utf8.hpp"
#include "formats/json_text.hpp"

namespace duskwire::formats {
namespace {

// ASCII that stands for itself.
bool is_plain(char c) { return static_cast<std::uint8_t>(c) >= 0x20 && static_cast<std::uint8_t>(c) < 0x7F; }
bool needs_no_care(char c) { return is_plain(c) && c != '"' && c != '\\'; }

void append_character(std::string& out, char c) {
  switch (c) {
    case '"':
      out += "\\\"";
      return;
    case '\\':
      out += "\\\\";
      return;
    case '\n':
      out += "\\n";
      return;
    case '\r':
      out += "\\r";
      return;
    case '\t':
      out += "\\t";
      return;
    default:
      if (is_plain(c)) {
        out += c;
      } else {
        out += fmt::format("\\u{:04x}", static_cast<unsigned>(c));
      }
  }
}

class Emitter {
 public:
  explicit Emitter(bool indented) : indented_(indented) {}

  void value(const Json& tree, std::size_t level) {
    switch (tree.type()) {
      case Json::value_t::object:
        return object(tree, level);
      case Json::value_t::array:
        return array(tree, level);
      case Json::value_t::string:
        return append_text(out_, tree.get_ref<const std::string&>());
      case Json::value_t::boolean:
        out_ += tree.get<bool>() ? "true" : "false";
        return;
      case Json::value_t::number_integer:
        out_ += fmt::format("{}", tree.get<std::int64_t>());
        return;
      case Json::value_t::number_unsigned:
        out_ += fmt::format("{}", tree.get<std::uint64_t>());
        return;
      case Json::value_t::number_float:
        return append_number(out_, tree.get<double>());
      default:
        out_ += "null";
    }
  }

  std::string take() { return std::move(out_); }

 private:
  void object(const Json& tree, std::size_t level) {
    if (tree.empty()) {
      out_ += "{}";
      return;
    }
    out_ += '{';
    bool first = true;
    for (const auto& [key, member] : tree.get_ref<const Json::object_t&>()) {
      if (!first) out_ += ',';
      first = false;
      line(level + 1);
      append_text(out_, key);
      out_ += indented_ ? ": " : ":";
      value(member, level + 1);
    }
    line(level);
    out_ += '}';
  }

  void array(const Json& tree, std::size_t level) {
    const bool one_line = std::all_of(tree.begin(), tree.end(), [](const Json& each) { return each.is_number(); });
    out_ += '[';
    bool first = true;
    for (const Json& each : tree) {
      if (!first) out_ += one_line && indented_ ? ", " : ",";
      first = false;
      if (!one_line) line(level + 1);
      value(each, level + 1);
    }
    if (!one_line) line(level);
    out_ += ']';
  }

  void line(std::size_t level) {
    if (!indented_) return;
    out_ += '\n';
    out_.append(2 * level, ' ');
  }

  bool indented_;
  std::string out_;
};

}  // namespace

void append_number(std::string& out, double value) {
  if (!std::isfinite(value)) {
    out += "null";
    return;
  }
  // Adding zero drops the sign of a negative zero, which reads back as the integer 0.
  fmt::format_to(std::back_inserter(out), FMT_COMPILE("{}"), value + 0.0);
}

void append_text(std::string& out, std::string_view raw) {
  out += '"';
  for (std::size_t i = 0; i < raw.size();) {
    const std::size_t begin = i;
    while (i < raw.size() && needs_no_care(raw[i])) ++i;
    out += raw.substr(begin, i - begin);
    if (i == raw.size()) break;
    const std::size_t bytes = character_bytes(raw.substr(i));
    if (bytes == 1) {
      append_character(out, raw[i]);
    } else if (bytes == 0) {
      out += "\xEF\xBF\xBD";
    } else {
      out += raw.substr(i, bytes);
    }
    i += std::max<std::size_t>(bytes, 1);
  }
  out += '"';
}

std::string indented_text(const Json& tree) {
  Emitter emitter(true);
  emitter.value(tree, 0);
  return emitter.take();
}

std::string compact_text(const Json& tree) {
  Emitter emitter(false);
  emitter.value(tree, 0);
  return emitter.take();
}

}  // namespace duskwire::formats
