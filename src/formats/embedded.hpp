// SPDX-License-Identifier: Apache-2.0
// The stock catalogue, the rulesets, the sets of levels and the rules on deposits that come with the program, as the
// JSON text of data/.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace duskwire::formats {

[[nodiscard]] std::string_view embedded_stock_catalogue();

// Empty where there is no ruleset of that id.
[[nodiscard]] std::string_view embedded_ruleset(std::string_view id);

[[nodiscard]] std::vector<std::string> embedded_ruleset_ids();

[[nodiscard]] std::string_view embedded_deposit_rules_text();

// The texts of data/levels, by name.
[[nodiscard]] std::vector<std::string_view> embedded_level_files();

}  // namespace duskwire::formats
