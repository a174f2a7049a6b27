// SPDX-License-Identifier: Apache-2.0
#include "formats/embedded.hpp"

#include "formats/embedded_files.hpp"

namespace duskwire::formats {
namespace {

constexpr std::string_view ruleset_folder = "rulesets/";
constexpr std::string_view suffix = ".json";

// The id of a ruleset's file, empty for any other file.
std::string_view ruleset_id(std::string_view name) {
  if (!name.starts_with(ruleset_folder) || !name.ends_with(suffix)) return {};
  name.remove_prefix(ruleset_folder.size());
  name.remove_suffix(suffix.size());
  return name;
}

std::string_view text_of(std::string_view name) {
  for (std::size_t i = 0; i < embedded_file_count; ++i) {
    if (embedded_files[i].name == name) return embedded_files[i].text;
  }
  return {};
}

}  // namespace

std::string_view embedded_stock_catalogue() { return text_of("catalogue/stock.json"); }

std::string_view embedded_deposit_rules_text() { return text_of("deposits/rules.json"); }

std::string_view embedded_ruleset(std::string_view id) {
  if (id.empty()) return {};
  for (std::size_t i = 0; i < embedded_file_count; ++i) {
    if (ruleset_id(embedded_files[i].name) == id) return embedded_files[i].text;
  }
  return {};
}

std::vector<std::string> embedded_ruleset_ids() {
  std::vector<std::string> ids;
  for (std::size_t i = 0; i < embedded_file_count; ++i) {
    const std::string_view id = ruleset_id(embedded_files[i].name);
    if (!id.empty()) ids.emplace_back(id);
  }
  return ids;
}

std::vector<std::string_view> embedded_level_files() {
  std::vector<std::string_view> texts;
  for (std::size_t i = 0; i < embedded_file_count; ++i) {
    if (embedded_files[i].name.starts_with("levels/")) texts.push_back(embedded_files[i].text);
  }
  return texts;
}

}  // namespace duskwire::formats
