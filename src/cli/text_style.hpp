// SPDX-License-Identifier: Apache-2.0
// How text for people is set: width, colour, characters, units. One value made at start (terminal.hpp) and handed down,
// so that every page is a plain function of its data and can be tested.
#pragma once

#include <string>
#include <string_view>

#include "job/site.hpp"

namespace duskwire::cli {

// What a piece of text means; the colour follows from it and words always say the same.
enum class Ink { plain, strong, faint, good, caution, bad };

// Characters of the drawings: line art where the terminal can show it, ASCII elsewhere.
struct Glyphs {
  std::string edge = "│";
  std::string inside = "·";
  std::string outside = " ";
  std::string range = "━";
  std::string now = "●";
  std::string full = "█";
  std::string empty = "░";
  std::string rule = "─";
  std::string dash = "–";
  std::string plus_minus = "±";
  std::string degree = "°";
  std::string ellipsis = "…";
};

[[nodiscard]] Glyphs ascii_glyphs();

struct TextStyle {
  int width = 80;
  bool colour = false;
  Glyphs glyphs;
  job::DisplayUnits units = job::DisplayUnits::metric;
};

// `text` in the colour of `ink`, or as it is where colour is off.
[[nodiscard]] std::string paint(const TextStyle& style, Ink ink, std::string_view text);
// A heading between two parts of a page: an empty line before it, then the words alone on theirs.
[[nodiscard]] std::string heading(const std::string& text, const TextStyle& style);

}  // namespace duskwire::cli
