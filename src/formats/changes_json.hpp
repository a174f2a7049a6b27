// SPDX-License-Identifier: Apache-2.0
// Changes of a job as JSON, both ways: cures, advice and the page's edits travel in this form.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "base/problem.hpp"
#include "formats/json_text.hpp"
#include "job/change.hpp"

namespace duskwire::formats {

[[nodiscard]] Json change_json(const job::Change& change);
[[nodiscard]] Json changes_json(const std::vector<job::Change>& changes);

struct ReadChanges {
  std::optional<std::vector<job::Change>> changes;  // only where no problem is an error
  Problems problems;
};

// A JSON array of changes.
[[nodiscard]] ReadChanges read_changes(std::string_view text);

}  // namespace duskwire::formats
