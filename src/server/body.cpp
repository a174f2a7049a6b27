// SPDX-License-Identifier: Apache-2.0
#include "server/body.hpp"

#include <fmt/format.h>

#include "server/routes.hpp"

namespace duskwire::server {

using formats::Json;

namespace {

std::string short_text(const Json& value) {
  std::string text = formats::compact_text(value);
  if (text.size() > 60) text = text.substr(0, 57) + "...";
  return text;
}

}  // namespace

const Json* Body::find(const char* key) {
  if (!tree_.is_object()) return nullptr;
  const auto found = tree_.find(key);
  return found == tree_.end() ? nullptr : &*found;
}

void Body::complain(const std::string& pointer, const Json* value, const std::string& expected) {
  Problem problem;
  problem.pointer = pointer;
  problem.value = value == nullptr ? "" : short_text(*value);
  problem.expected = expected;
  problem.message = value == nullptr ? fmt::format("{} is missing; expected {}.", pointer, expected)
                                     : fmt::format("{} is {}; expected {}.", pointer, problem.value, expected);
  problems_.push_back(std::move(problem));
}

std::int64_t Body::whole_number(const char* key) {
  const Json* value = find(key);
  if (value != nullptr && value->is_number_integer() &&
      !(value->is_number_unsigned() && value->get<std::uint64_t>() > INT64_MAX) && value->get<std::int64_t>() >= 0) {
    return value->get<std::int64_t>();
  }
  complain(std::string("/") + key, value, "a whole number, 0 or more");
  return 0;
}

bool Body::boolean(const char* key) {
  const Json* value = find(key);
  if (value != nullptr && value->is_boolean()) return value->get<bool>();
  complain(std::string("/") + key, value, "true or false");
  return false;
}

std::string Body::id(const char* key) {
  const Json* value = find(key);
  if (value != nullptr && value->is_string() && is_id(value->get_ref<const std::string&>()))
    return value->get<std::string>();
  complain(std::string("/") + key, value, "1 to 64 characters out of A-Z a-z 0-9 . _ -");
  return {};
}

std::string Body::text(const char* key, std::size_t most_bytes) {
  return find(key) == nullptr ? std::string{} : required_text(key, most_bytes);
}

std::string Body::required_text(const char* key, std::size_t most_bytes) {
  const Json* value = find(key);
  if (value != nullptr && value->is_string() && value->get_ref<const std::string&>().size() <= most_bytes) {
    return value->get<std::string>();
  }
  complain(std::string("/") + key, value, fmt::format("a text of at most {} bytes", most_bytes));
  return {};
}

std::string Body::object_text(const char* key, std::size_t most_bytes) {
  const Json* value = find(key);
  if (value == nullptr || value->is_null()) return {};
  if (value->is_object()) {
    std::string text = formats::compact_text(*value);
    if (text.size() <= most_bytes) return text;
  }
  complain(std::string("/") + key, value, fmt::format("an object of at most {} bytes", most_bytes));
  return {};
}

std::string Body::document(const char* format, std::string_view id) {
  const Json* value = find("document");
  if (value == nullptr || !value->is_object()) {
    complain("/document", value, fmt::format("a document with \"format\": \"{}\", \"version\": 1", format));
    return {};
  }
  const auto member = [&](const char* key) -> const Json* {
    const auto found = value->find(key);
    return found == value->end() ? nullptr : &*found;
  };
  const Json* its_format = member("format");
  if (its_format == nullptr || *its_format != format)
    complain("/document/format", its_format, fmt::format("\"{}\"", format));
  const Json* version = member("version");
  if (version == nullptr || *version != 1) {
    complain("/document/version", version,
             "1: this program reads and keeps version 1; a later one needs a later duskwire");
  }
  if (!id.empty()) {
    const Json* its_id = member("id");
    if (its_id == nullptr || *its_id != std::string(id))
      complain("/document/id", its_id, fmt::format("\"{}\", the job's id", id));
  }
  return formats::compact_text(*value);
}

std::string text_at(const Json& tree, std::initializer_list<const char*> keys) {
  const Json* at = &tree;
  for (const char* key : keys) {
    if (!at->is_object()) return {};
    const auto found = at->find(key);
    if (found == at->end()) return {};
    at = &*found;
  }
  return at->is_string() ? at->get<std::string>() : std::string{};
}

}  // namespace duskwire::server
