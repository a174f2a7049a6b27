// SPDX-License-Identifier: Apache-2.0
#include "cli/text_style.hpp"

namespace duskwire::cli {
namespace {

// Select Graphic Rendition codes of ECMA-48: the sixteen basic colours, which every theme keeps readable.
std::string_view code_of(Ink ink) {
  switch (ink) {
    case Ink::strong:
      return "1";
    case Ink::faint:
      return "2";
    case Ink::good:
      return "32";
    case Ink::caution:
      return "33";
    case Ink::bad:
      return "1;31";
    case Ink::plain:
      break;
  }
  return "";
}

}  // namespace

Glyphs ascii_glyphs() {
  return {.edge = "|",
          .inside = ".",
          .outside = " ",
          .range = "=",
          .now = "o",
          .full = "#",
          .empty = ".",
          .rule = "-",
          .dash = "-",
          .plus_minus = "+-",
          .degree = "",
          .ellipsis = "..."};
}

std::string paint(const TextStyle& style, Ink ink, std::string_view text) {
  const std::string_view code = code_of(ink);
  if (!style.colour || code.empty() || text.empty()) return std::string(text);
  return "\x1b[" + std::string(code) + "m" + std::string(text) + "\x1b[0m";
}

std::string heading(const std::string& text, const TextStyle& style) {
  return "\n" + paint(style, Ink::strong, text) + "\n";
}

}  // namespace duskwire::cli
