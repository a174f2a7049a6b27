// SPDX-License-Identifier: Apache-2.0
#include "formats/changes_json.hpp"

#include "formats/read_shape.hpp"
#include "formats/shape_change.hpp"
#include "formats/write_shape.hpp"

namespace duskwire::formats {

Json change_json(const job::Change& change) { return shape_json(change); }

Json changes_json(const std::vector<job::Change>& changes) {
  Json list = Json::array();
  for (const job::Change& change : changes) list.push_back(change_json(change));
  return list;
}

ReadChanges read_changes(std::string_view text) {
  constexpr std::size_t most_changes = 10'000;
  ParsedText parsed = parse_text(text);
  Context context;
  context.add(std::move(parsed.problems));
  ReadChanges read;
  if (parsed.tree && is_list(context, *parsed.tree, most_changes, {"changes", required, "changes of a job"})) {
    std::vector<job::Change> changes;
    for (std::size_t i = 0; i < parsed.tree->size(); ++i) {
      const Context::Scope scope(context, i);
      read_part(context, (*parsed.tree)[i], changes.emplace_back());
    }
    read.changes = std::move(changes);
  }
  read.problems = context.take();
  if (has_errors(read.problems)) read.changes.reset();
  return read;
}

}  // namespace duskwire::formats
