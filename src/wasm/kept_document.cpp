// SPDX-License-Identifier: Apache-2.0
#include "wasm/kept_document.hpp"

#include <fmt/format.h>

#include <string>
#include <utility>

namespace duskwire::wasm {
namespace {

using formats::Json;

bool is_part(const Json& entry) { return entry.is_array() && entry.size() == 2 && entry[0].is_string(); }

// Null where the pointer leads nowhere or is none.
Json* place_of(Json& tree, const std::string& pointer) {
  if (pointer.empty() || pointer[0] != '/') return nullptr;
  try {
    return &tree.at(Json::json_pointer(pointer));
  } catch (const Json::exception&) {
    return nullptr;
  }
}

}  // namespace

formats::ParsedText KeptDocument::keep(std::string_view text) {
  tree_.reset();
  formats::ParsedText parsed = formats::parse_text(text);
  if (parsed.tree && parsed.problems.empty()) tree_ = parsed.tree;
  return parsed;
}

Result<const Json*> KeptDocument::change(std::string_view parts) {
  if (!tree_) return Error{ErrorCode::not_found, "No document is kept: send the whole of it."};
  std::optional<Json> tree = std::exchange(tree_, std::nullopt);
  formats::ParsedText parsed = formats::parse_text(parts);
  if (!parsed.tree || !parsed.problems.empty() || !parsed.tree->is_array()) {
    return Error{ErrorCode::invalid, "The changed parts cannot be read: they are a list of [pointer, value]."};
  }
  for (Json& entry : *parsed.tree) {
    if (!is_part(entry)) return Error{ErrorCode::invalid, "A changed part is a list [pointer, value]."};
    const std::string pointer = entry[0].get<std::string>();
    Json* place = place_of(*tree, pointer);
    if (place == nullptr) {
      return Error{ErrorCode::not_found, fmt::format("The document that is kept has nothing at \"{}\".", pointer)};
    }
    *place = std::move(entry[1]);
  }
  tree_ = std::move(tree);
  return &*tree_;
}

}  // namespace duskwire::wasm
