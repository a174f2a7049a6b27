// SPDX-License-Identifier: Apache-2.0
// indented_text and compact_text.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <iterator>

#include "formats/json_text.hpp"
#include "formats/utf8.hpp"

namespace duskwire::formats {
namespace {

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
        return text(tree.get_ref<const std::string&>());
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
        return number(tree.get<double>());
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
      text(key);
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

  void number(double value) {
    if (!std::isfinite(value)) {
      out_ += "null";
      return;
    }
    // Adding zero drops the sign of a negative zero, which reads back as the integer 0.
    fmt::format_to(std::back_inserter(out_), "{}", value + 0.0);
  }

  void text(const std::string& raw) {
    out_ += '"';
    for (std::size_t i = 0; i < raw.size();) {
      const std::size_t bytes = character_bytes(std::string_view(raw).substr(i));
      if (bytes == 1) {
        character(raw[i]);
      } else if (bytes == 0) {
        out_ += "\xEF\xBF\xBD";
      } else {
        out_.append(raw, i, bytes);
      }
      i += std::max<std::size_t>(bytes, 1);
    }
    out_ += '"';
  }

  void character(char c) {
    switch (c) {
      case '"':
        out_ += "\\\"";
        return;
      case '\\':
        out_ += "\\\\";
        return;
      case '\n':
        out_ += "\\n";
        return;
      case '\r':
        out_ += "\\r";
        return;
      case '\t':
        out_ += "\\t";
        return;
      default:
        if (static_cast<std::uint8_t>(c) < 0x20 || c == 0x7F) {
          out_ += fmt::format("\\u{:04x}", static_cast<unsigned>(c));
        } else {
          out_ += c;
        }
    }
  }

  bool indented_;
  std::string out_;
};

}  // namespace

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
