// SPDX-License-Identifier: Apache-2.0
// Where labels go on a drawing: beside their things, on nothing that matters, never on each other. One that finds no
// place close by stands farther off with a line to its thing.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "paper/pen.hpp"

namespace duskwire::paper {

struct Label {
  std::string text;
  PointMm at;            // the thing
  double clear_mm = 2;   // as far around it as its sign reaches
  double height_mm = 2;  // of a capital
  bool bold = false;
};

struct PlacedLabel {
  Box box;                      // of the text with a little white around
  std::optional<PointMm> lead;  // where its line ends at the text, if it has one
};

struct LabelRoom {
  Box within;
  std::vector<Box> taken;     // signs: no label on these
  std::vector<PathMm> lines;  // cables: rather not on these
};

// One for each label in order; nothing for one that found no place at all.
[[nodiscard]] std::vector<std::optional<PlacedLabel>> place_labels(const std::vector<Label>& labels,
                                                                   const LabelRoom& room);

void draw_labels(Pen& pen, const std::vector<Label>& labels, const std::vector<std::optional<PlacedLabel>>& places);

}  // namespace duskwire::paper
