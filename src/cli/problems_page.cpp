// SPDX-License-Identifier: Apache-2.0
#include "cli/problems_page.hpp"

#include <fmt/format.h>

#include "cli/findings_page.hpp"
#include "cli/text_width.hpp"

namespace duskwire::cli {
namespace {

std::string row(const std::string& label, const std::string& text, const TextStyle& style) {
  if (text.empty()) return "";
  return paragraph("     " + paint(style, Ink::faint, pad_right(label, 9)), text, style.width);
}

}  // namespace

std::vector<Severity> severities_of(const Problems& problems) {
  std::vector<Severity> severities;
  for (const Problem& problem : problems) severities.push_back(problem.severity);
  return severities;
}

std::string problems_text(const Problems& problems, const TextStyle& style) {
  std::string out;
  for (std::size_t i = 0; i < problems.size(); ++i) {
    const Problem& problem = problems[i];
    const std::string word = paint(style, ink_of(problem.severity), word_of(problem.severity));
    out += paragraph(fmt::format("{:3}. {}  ", i + 1, word), problem.message, style.width, 5);
    out += row("at", problem.pointer.empty() ? "the document" : problem.pointer, style);
    out += row("met", problem.value, style);
    out += row("expected", problem.expected, style);
  }
  return out;
}

}  // namespace duskwire::cli
