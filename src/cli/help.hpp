// SPDX-License-Identifier: Apache-2.0
// The words of the help pages: what each command is for, with examples that a test runs as they stand here.
#pragma once

#include <string>
#include <vector>

#include "cli/text_style.hpp"

namespace duskwire::cli {

struct Example {
  std::string line;  // as typed in the folder of the project
  std::string note;  // "" or what to expect, beginning with "exit 1" where it ends so
};

struct CommandHelp {
  std::string name;
  std::string arguments;  // "JOB"
  std::string purpose;    // half a sentence for the list of commands
  std::string about;      // a paragraph
  std::vector<Example> examples;
};

[[nodiscard]] const std::vector<CommandHelp>& all_help();

struct OptionHelp {
  std::string names;  // "-o, --output FILE"
  std::string text;
};

struct OptionGroup {
  std::string title;
  std::vector<OptionHelp> options;
};

[[nodiscard]] std::string command_help_text(const CommandHelp& help, const std::vector<OptionGroup>& groups,
                                            const TextStyle& style);
[[nodiscard]] std::string overview_text(const TextStyle& style);

}  // namespace duskwire::cli
