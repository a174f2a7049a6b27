// SPDX-License-Identifier: Apache-2.0
// parse_text: nlohmann's tokens built into a tree of our own making.
#include <fmt/format.h>

#include <algorithm>
#include <unordered_set>
#include <utility>
#include <vector>

#include "base/utf8.hpp"
#include "formats/json_text.hpp"

namespace duskwire::formats {
namespace {

// An array or object that is not closed yet. `at` is null inside a value that is read but not kept.
struct Open {
  Json* at = nullptr;
  bool is_array = false;
  bool keep = true;  // whether the next value of an object is kept
  std::size_t index = 0;
  std::size_t key_count = 0;
  std::string key;
  std::unordered_set<std::string> keys;  // filled once there are so many that looking through them would take long
};

// Objects of a job have a dozen keys: their own list tells quicker than a table whether a key was there.
constexpr std::size_t few_keys = 24;

bool is_first(Open& open) {
  ++open.key_count;
  if (open.at == nullptr) return open.keys.insert(open.key).second;
  const auto& members = open.at->get_ref<const Json::object_t&>();
  if (members.size() < few_keys) {
    return std::none_of(members.begin(), members.end(), [&](const auto& member) { return member.first == open.key; });
  }
  if (open.keys.empty()) {
    for (const auto& member : members) open.keys.insert(member.first);
  }
  return open.keys.insert(open.key).second;
}

// Of the character that cannot be: the last of the `read` bytes.
std::string place_of(std::string_view text, std::size_t read) {
  const std::string_view before = text.substr(0, std::min(read - 1, text.size()));
  const auto line = std::count(before.begin(), before.end(), '\n') + 1;
  const std::size_t begin = before.rfind('\n');
  const std::string_view row = begin == std::string_view::npos ? before : before.substr(begin + 1);
  return fmt::format("line {}, column {}", line, count_chars(row) + 1);
}

// nlohmann's words without its own prefix, which names the column: "syntax error while parsing value - invalid
// literal".
std::string reason_of(std::string_view what) {
  what = what.substr(std::min(what.size(), what.find(": ", what.find("column ")) + 2));
  return shortened(what.substr(0, what.find("; last read: ")), 200);
}

class TreeBuilder {
 public:
  using number_integer_t = Json::number_integer_t;
  using number_unsigned_t = Json::number_unsigned_t;
  using number_float_t = Json::number_float_t;
  using string_t = Json::string_t;
  using binary_t = Json::binary_t;

  TreeBuilder(std::string_view text, const TextLimits& limits) : text_(text), limits_(limits) {}

  // What nlohmann's sax_parse calls; false ends the parse.
  bool null() { return scalar(nullptr); }
  bool boolean(bool value) { return scalar(value); }
  bool number_integer(number_integer_t value) { return scalar(value); }
  bool number_unsigned(number_unsigned_t value) { return scalar(value); }
  bool number_float(number_float_t value, const string_t&) { return scalar(value); }
  bool string(string_t& value) { return scalar(std::move(value)); }
  bool binary(binary_t&) { return false; }
  bool start_object(std::size_t) { return start(Json::object(), false); }
  bool start_array(std::size_t) { return start(Json::array(), true); }
  bool end_object() { return end(); }
  bool end_array() { return end(); }

  bool key(string_t& name) {
    Open& open = open_.back();
    open.key = std::move(name);
    open.keep = is_first(open);
    if (!open.keep) {
      report(shortened(open.key), "each key once",
             fmt::format("The key \"{}\" comes twice in one object: only one of them can be meant, remove the other.",
                         shortened(open.key)));
    }
    if (open.key_count <= limits_.keys_per_object) return true;
    return refuse(fmt::format("at most {} keys in an object", limits_.keys_per_object), "This object has more keys.");
  }

  bool parse_error(std::size_t byte, const std::string& token, const nlohmann::detail::exception& error) {
    const std::string place = place_of(text_, byte);
    if (error.id == 406) {
      report(shortened(token), "a number below 1.8e308 in size",
             fmt::format("The number at {} is too large to be held: correct it.", place));
      return false;
    }
    report(shortened(token), "valid JSON (RFC 8259) in UTF-8",
           fmt::format("At {} this is not valid JSON: {}. Mend it there; NaN, infinity, comments and a comma after the "
                       "last entry are not JSON.",
                       place, reason_of(error.what())));
    return false;
  }

  ParsedText take(bool complete) {
    ParsedText result;
    if (complete) result.tree = std::move(root_);
    result.problems = std::move(problems_);
    return result;
  }

 private:
  // Puts a value where the document has it; null where it is not kept.
  Json* place(Json&& value) {
    if (open_.empty()) {
      root_ = std::move(value);
      return &root_;
    }
    Open& open = open_.back();
    if (open.at == nullptr || !open.keep) return nullptr;
    // Past the tree's own interface, which would look for the key among all earlier ones.
    if (!open.is_array) return &open.at->get_ref<Json::object_t&>().emplace_back(open.key, std::move(value)).second;
    open.at->push_back(std::move(value));
    return &open.at->back();
  }

  bool scalar(Json&& value) {
    place(std::move(value));
    return next();
  }

  bool start(Json&& value, bool is_array) {
    Json* at = place(std::move(value));
    Open open;
    open.at = at;
    open.is_array = is_array;
    open_.push_back(std::move(open));
    if (open_.size() <= limits_.depth) return true;
    return refuse(fmt::format("at most {} levels", limits_.depth),
                  "Arrays and objects are nested too deeply for any job.");
  }

  bool end() {
    open_.pop_back();
    return next();
  }

  bool next() {
    if (!open_.empty()) ++open_.back().index;
    if (++values_ <= limits_.values) return true;
    return refuse(fmt::format("at most {} values", limits_.values), "This document is larger than any job.");
  }

  bool refuse(std::string expected, std::string message) {
    report("", std::move(expected), std::move(message));
    return false;
  }

  void report(std::string value, std::string expected, std::string message) {
    if (problems_.size() >= most_problems) return;
    problems_.push_back({Severity::error, pointer(), std::move(value), std::move(expected), std::move(message)});
  }

  [[nodiscard]] std::string pointer() const {
    std::string out;
    for (const Open& open : open_) {
      if (open.is_array) {
        out += fmt::format("/{}", open.index);
      } else if (open.key_count > 0) {
        out += "/" + pointer_part(open.key);
      }
    }
    return out;
  }

  static constexpr std::size_t most_problems = 1000;

  std::string_view text_;
  TextLimits limits_;
  Json root_;
  std::vector<Open> open_;
  std::size_t values_ = 0;
  Problems problems_;
};

}  // namespace

std::string pointer_part(std::string_view key) {
  if (key.find_first_of("~/") == std::string_view::npos) return std::string(key);
  std::string out;
  for (const char c : key) {
    if (c == '~') {
      out += "~0";
    } else if (c == '/') {
      out += "~1";
    } else {
      out += c;
    }
  }
  return out;
}

ParsedText parse_text(std::string_view text, const TextLimits& limits) {
  if (text.size() > limits.bytes) {
    return {std::nullopt,
            {{Severity::error, "", fmt::format("{} bytes", text.size()), fmt::format("at most {} bytes", limits.bytes),
              "The text is too long to be a job; pictures belong beside it, named by their hash."}}};
  }
  // nlohmann takes a zero byte for the end of the text and would pass over whatever follows it.
  const std::size_t zero = text.find('\0');
  if (zero != std::string_view::npos) {
    return {std::nullopt,
            {{Severity::error, "", "a zero byte", "JSON text in UTF-8",
              fmt::format("This is not JSON text: a zero byte stands at {}. Save the file as UTF-8 text.",
                          place_of(text, zero + 1))}}};
  }
  TreeBuilder builder(text, limits);
  const bool complete = Json::sax_parse(text.begin(), text.end(), &builder);
  return builder.take(complete);
}

}  // namespace duskwire::formats
