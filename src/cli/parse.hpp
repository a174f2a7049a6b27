// SPDX-License-Identifier: Apache-2.0
// The command line into an Invocation. The only user of CLI11, with options.hpp.
#pragma once

#include <string>
#include <variant>
#include <vector>

#include "cli/invocation.hpp"
#include "cli/text_style.hpp"

namespace duskwire::cli {

// A file to be written; of several all are, or none.
struct WrittenFile {
  std::string path;
  std::string bytes;
};

// What a run ends with: text for standard output, a complaint for standard error, the exit code.
struct Outcome {
  int code = 0;
  std::string text;
  std::string complaint;
  std::string document = "";            // what --output takes where that is not the text; "": there is none
  std::vector<WrittenFile> files = {};  // what papers, export and import write
};

inline constexpr int exit_sound = 0;
inline constexpr int exit_findings = 1;
inline constexpr int exit_bad_input = 2;

// `arguments` without the program's name. An Outcome where nothing is left to do: help, version, a line not understood.
[[nodiscard]] std::variant<Invocation, Outcome> parse(const std::vector<std::string>& arguments,
                                                      const TextStyle& style);

// Names of all commands, in the order of the help page.
[[nodiscard]] std::vector<std::string> command_names();

}  // namespace duskwire::cli
