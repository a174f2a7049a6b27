// SPDX-License-Identifier: Apache-2.0
// JSON text to the rules on deposits, and those that come with the program.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/problem.hpp"
#include "estimate/deposit.hpp"

namespace duskwire::formats {

struct DepositRules {
  std::string notice;  // that they are no legal advice
  std::vector<estimate::DepositRule> rules;
};

struct ReadDepositRules {
  std::optional<DepositRules> rules;  // only where no problem is an error
  Problems problems;
};

[[nodiscard]] ReadDepositRules read_deposit_rules(std::string_view text);

[[nodiscard]] const DepositRules& embedded_deposit_rules();

}  // namespace duskwire::formats
