// SPDX-License-Identifier: Apache-2.0
#include "cli/help.hpp"

#include <fmt/format.h>

#include "cli/table.hpp"
#include "cli/text_width.hpp"

namespace duskwire::cli {
namespace {

constexpr std::string_view exit_words =
    "Ends with 0: nothing of severity error; 1: errors were found in the job; 2: the input could not be used.";

std::string examples_text(const std::vector<Example>& examples, const TextStyle& style) {
  std::string out;
  for (const Example& example : examples) {
    if (!example.note.empty()) out += "  " + paint(style, Ink::faint, "# " + example.note) + "\n";
    out += "  " + example.line + "\n";
  }
  return out;
}

}  // namespace

std::string command_help_text(const CommandHelp& help, const std::vector<OptionGroup>& groups, const TextStyle& style) {
  std::string out = paint(style, Ink::strong, "duskwire " + help.name) + ": " + help.purpose + "\n\n";
  out += paragraph("  ", fmt::format("duskwire {} {} [options]", help.name, help.arguments), style.width) + "\n";
  out += paragraph("", help.about, style.width);
  for (const OptionGroup& group : groups) {
    out += heading(group.title, style);
    Table table({{""}, {"", Align::left, true, 20}});
    for (const OptionHelp& option : group.options) table.add({{option.names}, {option.text}});
    out += table.text(style);
  }
  out += heading("Examples", style) + examples_text(help.examples, style);
  return out + "\n" + paragraph("", exit_words, style.width);
}

std::string overview_text(const TextStyle& style) {
  std::string out = paint(style, Ink::strong, "duskwire") +
                    ": low-voltage garden lighting, from the plan to what each lamp will really see\n\n";
  out += "  duskwire COMMAND [options]\n";
  out += heading("Commands", style);
  Table table({{""}, {"", Align::left, true, 20}});
  for (const CommandHelp& help : all_help()) table.add({{help.name, Ink::strong}, {help.purpose}});
  out += table.text(style);
  out += heading("Examples", style);
  for (const char* name : {"check", "ask"}) {
    for (const CommandHelp& help : all_help()) {
      if (help.name == name) out += examples_text({help.examples.front()}, style);
    }
  }
  out += "\n" +
         paragraph("", "Each command has a page: duskwire COMMAND --help. Version: duskwire --version.", style.width);
  return out + paragraph("", exit_words, style.width);
}

}  // namespace duskwire::cli
