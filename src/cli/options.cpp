// SPDX-License-Identifier: Apache-2.0
#include "cli/options.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "base/decimal.hpp"

namespace duskwire::cli {

CLI::Validator one_of(std::vector<std::string> words) {
  return CLI::Validator(
      [words = std::move(words)](std::string& met) -> std::string {
        if (std::find(words.begin(), words.end(), met) != words.end()) return "";
        return fmt::format("\"{}\" is none of {}", met, fmt::join(words, ", "));
      },
      "");
}

CLI::Validator number_between(double low, double high) {
  return CLI::Validator(
      [low, high](std::string& met) -> std::string {
        const LeadingNumber read = leading_number(met);
        if (read.length == met.size() && read.value >= low && read.value <= high) return "";
        return fmt::format("\"{}\" is no number from {:.0f} to {:.0f}", met, low, high);
      },
      "");
}

void text_option(CLI::App& app, const std::string& names, std::string& value, const std::string& type,
                 const std::string& help, const std::string& group) {
  app.add_option(names, value, help)->type_name(type)->group(group);
}

void ids_option(CLI::App& app, const std::string& name, std::vector<std::string>& ids, const std::string& type,
                const std::string& help) {
  app.add_option(name, ids, help)
      ->type_name(type)
      ->expected(1)
      ->multi_option_policy(CLI::MultiOptionPolicy::TakeAll)
      ->group(own_group);
}

}  // namespace duskwire::cli
