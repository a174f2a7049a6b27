// SPDX-License-Identifier: Apache-2.0
// A paper broken into pages: what is drawn where, and under which tags, in reading order.
#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <vector>

#include "paper/document.hpp"
#include "paper/page.hpp"

struct _cairo;

namespace duskwire::paper {

enum class Ink : std::uint8_t { words = 0, line = 1, picture = 2 };

// One thing on a page. A step with a tag and no drawing opens or closes that tag.
struct Step {
  enum class Kind : std::uint8_t { draw = 0, open = 1, close = 2 };
  Kind kind = Kind::draw;
  std::string tag;         // "P", "TH", ...
  std::string attributes;  // of the tag
  Ink ink = Ink::words;
  Box box;  // what it covers
  std::function<void(_cairo*)> draw;
};

struct LaidPage {
  PageSetup setup;
  std::vector<Step> steps;
};

struct OutlineEntry {
  int level = 0;
  std::string text;
  std::string target;  // name of the place
  std::size_t page = 0;
};

struct LaidOut {
  TitleBlock title;
  std::vector<LaidPage> pages;
  std::vector<OutlineEntry> outline;
  std::vector<std::string> alternatives;  // of the figures, in reading order
  std::size_t unknown_glyphs = 0;         // characters that no font here has: a box is printed for each
};

[[nodiscard]] LaidOut lay_out(const Document& document);

}  // namespace duskwire::paper
