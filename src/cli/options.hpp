// SPDX-License-Identifier: Apache-2.0
// The kinds of options that the commands have, for parse.cpp: with their group, their type as the help page shows it,
// and complaints in our own words.
#pragma once

#include <CLI/CLI.hpp>
#include <string>
#include <vector>

namespace duskwire::cli {

inline const std::string own_group = "Options";

[[nodiscard]] CLI::Validator one_of(std::vector<std::string> words);
[[nodiscard]] CLI::Validator number_between(double low, double high);

void text_option(CLI::App& app, const std::string& names, std::string& value, const std::string& type,
                 const std::string& help, const std::string& group = own_group);

// An option that may be given several times, one id each.
void ids_option(CLI::App& app, const std::string& name, std::vector<std::string>& ids, const std::string& type,
                const std::string& help);

template <class Number>
void number_option(CLI::App& app, const std::string& name, Number& value, const std::string& type, double most,
                   const std::string& help) {
  app.add_option(name, value, help)->type_name(type)->check(number_between(0, most))->group(own_group);
}

}  // namespace duskwire::cli
