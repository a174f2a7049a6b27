// SPDX-License-Identifier: Apache-2.0
// JSON text to a ruleset. Keys that it does not know are passed over: a ruleset is data of this program, never
// rewritten.
#pragma once

#include <optional>
#include <string_view>

#include "base/problem.hpp"
#include "study/rules.hpp"

namespace duskwire::formats {

struct ReadRuleset {
  std::optional<study::Ruleset> ruleset;  // only where no problem is an error
  Problems problems;
};

[[nodiscard]] ReadRuleset read_ruleset(std::string_view text);

}  // namespace duskwire::formats
